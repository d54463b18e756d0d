/** What stands at a path of an outpost file, as a form shows it. */
import { isAlias, isMap, isScalar, isSeq, type Node } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { shortFormAt } from './edit-schema.ts'
import { isAbsent, keyOf, pairOf, rangeOf, wayTo } from './edit-tree.ts'
import { NotEditable } from './splice.ts'

/** `line` is where it stands, from 1. */
export type FieldValue =
  /** `text` as it is written, without quotes; of `{ is: …, source: … }` what `is` says, and the source beside it. */
  | { readonly kind: 'text'; readonly text: string; readonly source: string | null; readonly line: number }
  | { readonly kind: 'map'; readonly keys: readonly string[]; readonly line: number }
  | { readonly kind: 'list'; readonly length: number; readonly line: number }
  | { readonly kind: 'absent' }

const ABSENT: FieldValue = { kind: 'absent' }

/** Aliases are followed. A cell or place that is written short is found under the key that it is short for. */
export function valueAt(document: OutpostDocument, path: Path): FieldValue {
  try {
    const { holders, node } = wayTo(document, path, true)
    const { owner, index } = holders.at(-1) ?? {}
    const key = isMap(owner) ? (owner.items[index ?? 0].key as Node) : null
    const rest = path.slice(holders.length)
    if (rest.length > 0) {
      const short =
        isScalar(node) && !isAbsent(node) ? shortFormAt(path.slice(0, holders.length), rest) : null
      return short?.key.join('\n') === rest.join('\n') ? shown(document, node, key) : ABSENT
    }
    return shown(document, node, key)
  } catch (error) {
    if (error instanceof NotEditable) return ABSENT
    throw error
  }
}

function shown(document: OutpostDocument, written: Node | null, key: Node | null): FieldValue {
  const node = isAlias(written) ? (written.resolve(document.yaml) ?? null) : written
  const line = Math.max(
    1,
    document.lines.linePos(rangeOf(isAbsent(written) ? (key ?? written) : written)[0]).line,
  )
  if (isSeq(node)) return { kind: 'list', length: node.items.length, line }
  if (!isMap(node)) return { kind: 'text', text: textOf(node), source: null, line }
  const is = pairOf(node, 'is')?.value
  if (isScalar(is)) {
    const source = pairOf(node, 'source')?.value
    return { kind: 'text', text: textOf(is), source: isScalar(source) ? textOf(source) : null, line }
  }
  return { kind: 'map', keys: node.items.flatMap((item) => keyOf(item) ?? []), line }
}

export const textOf = (node: Node | null): string =>
  isScalar(node) && node.value !== undefined && !isAbsent(node) ? (node.source ?? String(node.value)) : ''
