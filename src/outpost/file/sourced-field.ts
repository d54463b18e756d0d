/**
 * A field that is one text, or a mapping that says where it comes from: `{ is: 0.7 mA ± 0.1 mA, source: bench log 3 }`.
 */
import { z } from 'zod'
import type { Uncertain } from '../../quantity/uncertain.ts'

/** A number as it stands in the file. */
export interface Sourced<T = Uncertain> {
  readonly value: T
  readonly source: string | null
}

/** What a field's own reading finds wrong; `start` and `end` are offsets into its text. */
export interface FieldProblem {
  readonly code: string
  readonly message: string
  readonly expected: string
  readonly cure: string
  readonly start?: number
  readonly end?: number
}

/** What an editor shows beside a key; the same words go into errors. */
export interface About {
  readonly description: string
  readonly examples: readonly unknown[]
}

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: FieldProblem }

/** Which numbers say it all without a unit. */
export type Bare = 'all' | 'zero' | 'none'

const TEXTS: Readonly<Record<Bare, readonly object[]>> = {
  all: [{ type: ['string', 'number'] }],
  zero: [{ type: 'string' }, { const: 0 }],
  none: [{ type: 'string' }],
}

/** One field of text, with or without a source; `bare` is for the JSON Schema, and `read` decides. */
export function sourcedField<T>(bare: Bare, about: About, read: (text: string) => Read<T>) {
  const texts = TEXTS[bare]
  const withSource = {
    type: 'object',
    properties: {
      is: { ...(texts.length === 1 ? texts[0] : { anyOf: texts }), description: about.description },
      source: { type: 'string', description: 'Where the number comes from.' },
    },
    required: ['is'],
    additionalProperties: false,
  }
  return z
    .unknown()
    .meta({ ...about, examples: [...about.examples], anyOf: [...texts, withSource] })
    .transform((input, context): Sourced<T> => {
      const sourced = isMapping(input)
      const source = sourced ? input.source : undefined
      const stray = sourced ? Object.keys(input).find((key) => key !== 'is' && key !== 'source') : undefined
      const value = sourced ? input.is : input
      if (stray !== undefined)
        return refuse(
          context,
          input,
          {
            code: 'unknown-key',
            message: `a number has no "${stray}"`,
            expected: 'is: the number, and source: where it comes from',
            cure: `remove "${stray}"`,
          },
          [stray],
        )
      if (source !== undefined && typeof source !== 'string')
        return refuse(context, input, wrongType('a text that says where the number comes from'), ['source'])
      const inside = sourced ? ['is'] : []
      if (typeof value !== 'string' && typeof value !== 'number')
        return refuse(context, input, absent(value, about), inside)
      const result = read(String(value).trim())
      return result.ok
        ? { value: result.value, source: source ?? null }
        : refuse(context, input, result.problem, inside)
    })
}

const wrongType = (expected: string): FieldProblem => ({
  code: 'wrong-type',
  message: 'this is not what belongs here',
  expected,
  cure: 'write it as text',
})

function absent(value: unknown, about: About): FieldProblem {
  const expected = `${lowerFirst(about.description)} ("${about.examples[0]}")`
  if (value === undefined) return { code: 'missing-key', message: 'missing', expected, cure: 'add it' }
  if (value === null)
    return {
      code: 'empty-value',
      message: 'nothing follows',
      expected,
      cure: 'write the number, with its unit',
    }
  return { ...wrongType(expected), cure: 'write a number with its unit' }
}

const lowerFirst = (text: string): string =>
  (/^[A-Z][a-z ]/.test(text) ? text[0].toLowerCase() + text.slice(1) : text).replace(/\.$/, '')

const isMapping = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Leaves a problem with the parser; what is returned is never seen, because reading has failed. */
export function refuse(
  context: z.core.$RefinementCtx,
  input: unknown,
  problem: FieldProblem,
  path: string[] = [],
): never {
  context.issues.push({ code: 'custom', input, path, message: problem.message, params: { problem } })
  return z.NEVER
}
