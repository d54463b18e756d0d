/** Numbers of the file that name where they come from. */
import type { Path } from './diagnostic.ts'

export interface NumberSource {
  readonly path: Path
  readonly source: string
}

/** In the order of the file's sections as read by the schema. */
export function sourcesIn(node: unknown, path: Path = []): NumberSource[] {
  if (typeof node !== 'object' || node === null) return []
  if ('source' in node && 'value' in node)
    return typeof node.source === 'string' ? [{ path, source: node.source }] : []
  return Array.isArray(node)
    ? node.flatMap((item, i) => sourcesIn(item, [...path, i]))
    : Object.entries(node).flatMap(([key, item]) => sourcesIn(item, [...path, key]))
}
