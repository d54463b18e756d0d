/**
 * An edit is made only where the text that comes of it reads as the data before with the one change, whatever the file
 * holds: aliases, tags, keys in long form. What cannot be changed alone is refused, with the reason.
 */
import { visit } from 'yaml'
import type { Path } from './diagnostic.ts'
import { dataOf, isReadable, type OutpostDocument, parseOutpostDocument, syntaxProblems } from './document.ts'
import { type Edited, inOrder, NotEditable, type Splice, spliced } from './splice.ts'

export interface Change {
  readonly splices: readonly Splice[]
  /** What the file is to say afterwards. */
  readonly data: unknown
}

/** `change` is given the file's data, and throws NotEditable where it cannot be made. */
export function edited(document: OutpostDocument, path: Path, change: (data: unknown) => Change): Edited {
  const refused = (why: string): Edited => ({ ok: false, path, why })
  if (!isReadable(document)) {
    const problem = syntaxProblems(document).find(({ code }) => code !== 'yaml-duplicate-key')
    return refused(
      `Line ${problem?.range.start.line ?? 1} of the file is not YAML: mend it in the text first.`,
    )
  }
  const read = dataOf(document)
  if ('problem' in read)
    return refused(
      `Line ${read.problem.range.start.line} of the file: ${read.problem.message}. Mend it in the text first.`,
    )
  try {
    const { splices, data } = change(read.data)
    const ordered = inOrder(document.source, splices)
    const text = spliced(document.source, ordered)
    if (ordered.length > 0 && !says(text, data, document))
      return refused(`This cannot be changed by itself: ${reason(document)}. Change it in the text.`)
    return { ok: true, text, splices: ordered }
  } catch (error) {
    if (error instanceof NotEditable) return refused(`This cannot be changed here: ${error.message}.`)
    throw error
  }
}

function says(text: string, data: unknown, before: OutpostDocument): boolean {
  const after = parseOutpostDocument(text)
  const { errors, warnings } = before.yaml
  if (!isReadable(after) || after.yaml.errors.length > errors.length) return false
  if (after.yaml.warnings.length > warnings.length) return false
  const read = dataOf(after)
  return 'data' in read && isSame(read.data ?? {}, data ?? {})
}

function reason({ yaml }: OutpostDocument): string {
  let shares = false
  visit(yaml, {
    Alias() {
      shares = true
      return visit.BREAK
    },
  })
  return shares
    ? 'other places may share it through an anchor (&) or alias (*)'
    : 'the lines around it are tied up with it'
}

function isSame(one: unknown, other: unknown): boolean {
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return Object.is(one, other)
  if (Array.isArray(one) !== Array.isArray(other)) return false
  const keys = Object.keys(one)
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => Object.hasOwn(other, key) && isSame(Reflect.get(one, key), Reflect.get(other, key)))
  )
}

/** The data with `value` at `path`; what is missing on the way is made, lists for numbers. */
export function dataWith(data: unknown, path: Path, value: unknown): unknown {
  if (path.length === 0) return value
  const [part, ...rest] = path
  const inner = (data as Readonly<Record<string | number, unknown>> | null | undefined)?.[part]
  const each = dataWith(inner, rest, value)
  if (Array.isArray(data)) return data.toSpliced(Number(part), 1, each)
  if (typeof part === 'number' && !isMapping(data)) return [each]
  return Object.fromEntries([...Object.entries(isMapping(data) ? data : {}), [String(part), each]])
}

/** The data without what is at `path`, which is there. */
export function dataWithout(data: unknown, path: Path): unknown {
  if (path.length === 0) return null
  const owner = path.slice(0, -1).reduce<unknown>((each, part) => Reflect.get(each as object, part), data)
  const last = path[path.length - 1]
  const left = Array.isArray(owner)
    ? owner.toSpliced(Number(last), 1)
    : Object.fromEntries(Object.entries(owner as object).filter(([key]) => key !== String(last)))
  return dataWith(data, path.slice(0, -1), left)
}

const isMapping = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
