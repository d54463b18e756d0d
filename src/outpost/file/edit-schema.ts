/** What an edit asks of the file's format: the order of keys, what is text, and what may be written short. */
import { safeParse, type z } from 'zod'
import type { Path } from './diagnostic.ts'
import { outpostSchema } from './schema.ts'
import { fieldAt, keysOf } from './schema-walk.ts'

/** A variant is a patch over the file, so that its sections are those of the file. */
function inFile(data: unknown, path: Path): { readonly data: unknown; readonly path: Path } | null {
  if (path[0] !== 'variants') return { data, path }
  if (path.length < 2) return null
  return { data: [...path.slice(0, 2)].reduce(childOf, data), path: path.slice(2) }
}

const childOf = (data: unknown, part: string | number): unknown =>
  (data as Readonly<Record<string | number, unknown>> | null | undefined)?.[part]

function schemaAt(data: unknown, path: Path): z.core.$ZodType | null {
  const inside = inFile(data, path)
  return inside === null ? null : fieldAt(outpostSchema, inside.data, inside.path)
}

/**
 * Whether the field at `path` takes the text, but not the number or truth that YAML would read in its place; null where
 * the format has no such field.
 */
export function isTextField(
  data: unknown,
  path: Path,
  text: string,
  plain: number | boolean,
): boolean | null {
  const schema = schemaAt(data, path)
  return schema && !safeParse(schema, plain).success && safeParse(schema, text).success
}

/** Where among `keys` a further one goes: behind the nearest that comes before it in the format, else ahead of the next. */
export function placeOfKey(data: unknown, path: Path, keys: readonly (string | null)[], key: string): number {
  const schema = schemaAt(data, path)
  const order = schema === null ? [] : keysOf(schema, path.reduce(childOf, data))
  const rank = order.indexOf(key)
  if (rank < 0) return placeOfNumber(keys, key)
  const ranks = keys.map((each) => (each === null ? -1 : order.indexOf(each)))
  const before = Math.max(...ranks.filter((each) => each >= 0 && each < rank), -1)
  if (before >= 0) return ranks.indexOf(before) + 1
  const after = Math.min(...ranks.filter((each) => each > rank))
  return Number.isFinite(after) ? ranks.indexOf(after) : keys.length
}

/** The azimuths of a horizon go up; other keys come as they are written. */
function placeOfNumber(keys: readonly (string | null)[], key: string): number {
  const isNumber = (each: string | null) =>
    each !== null && each.trim() !== '' && Number.isFinite(Number(each))
  if (![key, ...keys].every(isNumber)) return keys.length
  const after = keys.findIndex((each) => Number(each) > Number(key))
  return after < 0 ? keys.length : after
}

/** A value that stands for a mapping with one entry, at the path `key` inside it. */
export interface ShortForm {
  readonly key: readonly string[]
  /** Written out, it stays on its line. */
  readonly staysShort: boolean
}

const SHORT_FORMS: readonly (ShortForm & { readonly at: string })[] = [
  { at: 'supply.cell', key: ['type'], staysShort: true },
  { at: 'place', key: ['weather', 'place'], staysShort: false },
]

/** What the single value at `path` is short for, where `inside` is to be found in it; null where it is just itself. */
export function shortFormAt(path: Path, inside: Path): ShortForm | null {
  const place = (path[0] === 'variants' ? path.slice(2) : path).join('.')
  const known = SHORT_FORMS.find(({ at }) => at === place)
  if (known !== undefined) return known
  return inside.length === 1 && (inside[0] === 'is' || inside[0] === 'source')
    ? { key: ['is'], staysShort: true }
    : null
}
