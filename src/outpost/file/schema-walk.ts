/** Finding one's way in the schema: which field a path of the data leads to, its words, and the keys it may have. */
import { z } from 'zod'
import type { Path } from './diagnostic.ts'

type Schema = z.core.$ZodType

export interface FieldWords {
  readonly description: string
  readonly example: string | null
}

/** The field that `path` leads to in `data`, null where the schema has none. */
export function fieldAt(root: Schema, data: unknown, path: Path): Schema | null {
  let schema: Schema | null = root
  let value = data
  for (const part of path) {
    if (schema === null) return null
    schema = childOf(schema, value, part)
    value = (value as Record<string | number, unknown> | null | undefined)?.[part]
  }
  return schema
}

function childOf(schema: Schema, value: unknown, part: string | number): Schema | null {
  const inner = unwrapped(schema)
  if (inner instanceof z.ZodObject) return inner.shape[part] ?? null
  if (inner instanceof z.ZodArray) return inner.element
  if (inner instanceof z.ZodRecord) return inner.valueType
  if (inner instanceof z.ZodUnion)
    return optionsFor(inner, value).reduce<Schema | null>(
      (found, option) => found ?? childOf(option, value, part),
      null,
    )
  return null
}

/** Keys that the mapping `value` may have; empty where any key goes. */
export function keysOf(schema: Schema, value: unknown): string[] {
  const inner = unwrapped(schema)
  if (inner instanceof z.ZodObject) return Object.keys(inner.shape)
  if (inner instanceof z.ZodUnion) return optionsFor(inner, value).flatMap((option) => keysOf(option, value))
  return []
}

/** The options of a union; of one told apart by a key, those that fit the key's value. */
function optionsFor(union: z.ZodUnion, value: unknown): readonly Schema[] {
  if (!(union instanceof z.ZodDiscriminatedUnion)) return union.options
  const key = union.def.discriminator
  const kind = (value as Record<string, unknown> | null | undefined)?.[key]
  const fitting = union.options.filter(
    (option) => option instanceof z.ZodObject && option.shape[key].safeParse(kind).success,
  )
  return fitting.length > 0 ? fitting : union.options
}

function unwrapped(schema: Schema): Schema {
  if (schema instanceof z.ZodOptional) return unwrapped(schema.unwrap())
  return schema
}

/** The description and first example of a field, as an editor shows them. */
export function wordsOf(schema: Schema | null): FieldWords | null {
  if (schema === null) return null
  const inner = unwrapped(schema)
  const meta = z.globalRegistry.get(inner instanceof z.ZodPipe ? inner.in : inner)
  if (meta?.description === undefined) return null
  const example = (meta.examples as readonly unknown[] | undefined)?.[0]
  return {
    description: meta.description.replace(/\.$/, ''),
    example: example === undefined ? null : asYaml(example),
  }
}

/** A value as one would write it on one line of YAML. */
function asYaml(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(asYaml).join(', ')}]`
  if (typeof value === 'object' && value !== null)
    return `{ ${Object.entries(value)
      .map(([key, each]) => `${key}: ${asYaml(each)}`)
      .join(', ')} }`
  return String(value)
}
