/** A value that is written short (a cell's type alone, a number without its source) written out, so that more goes beside it. */
import { isScalar } from 'yaml'
import type { Path } from './diagnostic.ts'
import { type OutpostDocument, parseOutpostDocument } from './document.ts'
import { type Change, edited } from './edit-check.ts'
import { put } from './edit-put.ts'
import { BLOCK, FLOW, type PlainData } from './edit-render.ts'
import { type ShortForm, shortFormAt } from './edit-schema.ts'
import { isNothing, wayTo } from './edit-tree.ts'
import { textOf } from './field-value.ts'
import { type Edited, NotEditable, spliceBetween } from './splice.ts'

interface Short extends ShortForm {
  /** Where the short value stands. */
  readonly at: Path
  readonly text: string
  /** The path leads to the very thing that the value is short for. */
  readonly isMeant: boolean
}

function shortOnTheWay(document: OutpostDocument, path: Path): Short | null {
  try {
    const { holders, node } = wayTo(document, path)
    const at = path.slice(0, holders.length)
    const rest = path.slice(holders.length)
    if (rest.length === 0 || !isScalar(node) || isNothing(node)) return null
    const form = shortFormAt(at, rest)
    return form && { ...form, at, text: textOf(node), isMeant: form.key.join('\n') === rest.join('\n') }
  } catch (error) {
    if (error instanceof NotEditable) return null // the edit itself will say so
    throw error
  }
}

/** The path, or that of the short value which says what is looked for there. */
export function pathInShort(document: OutpostDocument, path: Path): Path {
  const short = shortOnTheWay(document, path)
  return short?.isMeant ? short.at : path
}

/** A change for which whatever stands in its way as a short value is written out first. */
export function editedInLongForm(
  document: OutpostDocument,
  path: Path,
  change: (document: OutpostDocument, data: unknown) => Change,
): Edited {
  const short = shortOnTheWay(document, path)
  if (short === null) return edited(document, path, (data) => change(document, data))
  const { at, key, text, staysShort } = short
  const long = key.reduceRight<PlainData>((inner, part) => ({ [part]: inner }), text)
  const first = edited(document, path, (data) => put(document, at, long, data, staysShort ? FLOW : BLOCK))
  if (!first.ok) return first
  const writtenOut = parseOutpostDocument(first.text)
  const second = edited(writtenOut, path, (data) => change(writtenOut, data))
  if (!second.ok) return second
  const splice = spliceBetween(document.source, second.text)
  return { ok: true, text: second.text, splices: splice === null ? [] : [splice] }
}
