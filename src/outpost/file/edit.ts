/**
 * Numbers written into an outpost file: only the characters of the values change, so comments, order and layout stay as
 * they are, byte for byte.
 */
import { isAlias, isMap, isScalar, type Node, type YAMLMap } from 'yaml'
import type { Path } from './diagnostic.ts'
import type { OutpostDocument } from './document.ts'
import { newlineOf } from './edit-lines.ts'
import { quoted } from './edit-scalar.ts'
import { nodeAt, pairOf } from './edit-tree.ts'
import { type Edited, inOrder, NotEditable, type Splice, spliced } from './splice.ts'

/** A number to stand at `path`, whose mapping is in the file already. */
export interface NumberChange {
  readonly path: Path
  /** In the grammar of the file: `0.7 mA ± 0.1 mA`. */
  readonly text: string
  readonly source: string
}

export type { Splice }

/** Changes that would leave a value as it is make no splice. */
export function withNumbers(document: OutpostDocument, changes: readonly NumberChange[]): Edited {
  const splices: Splice[] = []
  for (const { path, text, source } of changes)
    try {
      splices.push(...splicesFor(document, path, text, source))
    } catch (error) {
      if (error instanceof NotEditable) return { ok: false, path, why: error.message }
      throw error
    }
  const ordered = inOrder(document.source, splices)
  return { ok: true, text: spliced(document.source, ordered), splices: ordered }
}

function splicesFor(document: OutpostDocument, path: Path, text: string, source: string): Splice[] {
  const parent = nodeAt(document, path.slice(0, -1))
  if (!isMap(parent)) throw new NotEditable('it stands in no mapping')
  const key = String(path.at(-1))
  const pair = pairOf(parent, key)
  if (pair === null) return [added(document, parent, key, withSource(text, source))]
  const value = pair.value as Node | null
  if (!isMap(value)) return [replaced(document, value, withSource(text, source))]
  const named = pairOf(value, 'source')
  return [
    replaced(document, pairOf(value, 'is')?.value as Node | null, quoted(text, 'flow')),
    named === null
      ? added(document, value, 'source', JSON.stringify(source))
      : replaced(document, named.value as Node | null, JSON.stringify(source)),
  ]
}

const withSource = (text: string, source: string): string =>
  `{ is: ${quoted(text, 'flow')}, source: ${JSON.stringify(source)} }`

function replaced({ source }: OutpostDocument, node: Node | null | undefined, text: string): Splice {
  if (isAlias(node)) throw new NotEditable('it is an alias (*) of another value')
  if (!isScalar(node) || !node.range) throw new NotEditable('it is no plain value')
  if (node.anchor !== undefined) throw new NotEditable('other places share it through its anchor (&)')
  const [start, end] = node.range
  if (node.type?.startsWith('BLOCK') || source.slice(start, end).includes('\n'))
    throw new NotEditable('it stands on several lines')
  return { start, end, text }
}

/** A further key at the end of a mapping within { }, or on a line of its own below the last key that has a value. */
function added({ source, lines }: OutpostDocument, map: YAMLMap, key: string, text: string): Splice {
  const last = map.items.at(-1)
  const lastKey = last?.key as Node | undefined
  const end = (last?.value as Node | null)?.range?.[1]
  if (!lastKey?.range || end === undefined) throw new NotEditable('nothing stands beside it')
  if (map.flow) return { start: end, end, text: `, ${key}: ${text}` }
  const newline = newlineOf(source)
  const line = `${' '.repeat(lines.linePos(lastKey.range[0]).col - 1)}${key}: ${text}`
  const lineEnd = source.indexOf('\n', end - 1)
  const at = lineEnd < 0 ? source.length : lineEnd + 1
  return { start: at, end: at, text: lineEnd < 0 ? newline + line : line + newline }
}
