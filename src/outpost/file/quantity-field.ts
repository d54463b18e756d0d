/**
 * Fields of the file that hold a number with its unit: plain text (`0.7 mA ± 0.1 mA`), or a mapping that says where it
 * came from (`{ is: 0.7 mA ± 0.1 mA, source: bench log 3 }`). Each is checked for shape, unit and bounds as it is read.
 */
import { z } from 'zod'
import type { Dimension } from '../../quantity/dimension.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
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

export interface Bounds {
  /** Lowest and highest value allowed, in base units. */
  readonly low?: number
  readonly high?: number
  /** Zero itself is not allowed. */
  readonly positive?: boolean
}

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: FieldProblem }

/** A number, perhaps with a tolerance. */
export const quantity = (dimension: Dimension, about: About, bounds: Bounds = {}) =>
  textField(takesBareNumbers(dimension), about, (text) => readUncertain(text, dimension, bounds))

/** Two numbers with a word between them: `310 mA for 8 ms`, `5.5 V at 180 mA`. */
export function pair(first: Dimension, word: 'for' | 'at', second: Dimension, about: About) {
  return textField(false, about, (text): Read<readonly [Uncertain, Uncertain]> => {
    const parts = new RegExp(`^(.*?)\\s${word}\\s(.*)$`).exec(text)
    if (parts === null)
      return {
        ok: false,
        problem: {
          code: 'pair-incomplete',
          message: `"${text}" lacks one of its two numbers`,
          expected: `two numbers with "${word}" between, as in "${about.examples[0]}"`,
          cure: `write both, with "${word}" between`,
        },
      }
    const left = readUncertain(parts[1], first, { positive: true })
    if (!left.ok) return left
    const right = readUncertain(parts[2], second, { positive: true })
    if (!right.ok) return { ok: false, problem: shifted(right.problem, text.length - parts[2].length) }
    return { ok: true, value: [left.value, right.value] }
  })
}

/** Several numbers with one unit at the end (`0.8 1.9 3.9 h`), or a list of texts with a unit each. */
export function quantities(dimension: Dimension, count: number, about: About, bounds: Bounds = {}) {
  const shape = { anyOf: [{ type: 'string' }, { type: 'array', items: { type: ['string', 'number'] } }] }
  return z
    .unknown()
    .meta({ ...about, examples: [...about.examples], ...shape })
    .transform((input, context): readonly number[] => {
      const items = Array.isArray(input) ? input.map(String) : typeof input === 'string' ? itemsOf(input) : []
      if (items.length !== count)
        return refuse(context, input, {
          code: input === undefined ? 'missing-key' : 'wrong-count',
          message: input === undefined ? 'missing' : `${items.length} numbers, where ${count} belong`,
          expected: `${count} numbers from January on, as in "${about.examples[0]}"`,
          cure: 'give a number for each month',
        })
      const read = items.map((item) => readUncertain(item, dimension, bounds))
      const wrong = read.findIndex((each) => !each.ok)
      const problem = read[wrong]
      if (problem !== undefined && !problem.ok) {
        const { start: _, end: __, ...rest } = problem.problem
        return refuse(context, input, { ...rest, message: `number ${wrong + 1}: ${rest.message}` })
      }
      return read.map((each) => (each.ok ? best(each.value) : 0))
    })
}

/** `0.8 1.9 3.9 h` as `0.8 h`, `1.9 h`, `3.9 h`. */
function itemsOf(text: string): string[] {
  const [, numbers, unit] = /^((?:[-−+]?[\d.]+[\s,]*)+)(.*)$/.exec(text.trim()) ?? ['', '', '']
  return numbers
    .split(/[\s,]+/)
    .filter((number) => number !== '')
    .map((number) => `${number} ${unit}`.trim())
}

/** Angles are degrees, ratios and counts have no unit: there a bare number says it all. */
const takesBareNumbers = (dimension: Dimension): boolean => ['ratio', 'angle', 'count'].includes(dimension)

/** One field of text, with or without a source. */
export function textField<T>(bareNumbers: boolean, about: About, read: (text: string) => Read<T>) {
  const text = { type: bareNumbers ? ['string', 'number'] : 'string' }
  const withSource = {
    type: 'object',
    properties: {
      is: { ...text, description: about.description },
      source: { type: 'string', description: 'Where the number comes from.' },
    },
    required: ['is'],
    additionalProperties: false,
  }
  return z
    .unknown()
    .meta({ ...about, examples: [...about.examples], anyOf: [text, withSource] })
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

function readUncertain(text: string, dimension: Dimension, bounds: Bounds): Read<Uncertain> {
  const bareAngle = dimension === 'angle' && /^[-+−\d.\s±]+$/.test(text)
  const parsed = parseUncertain(bareAngle ? `${text}°` : text, dimension)
  if (!parsed.ok) return { ok: false, problem: parsed.problem }
  return withinBounds(parsed.value, dimension, bounds, text)
}

function withinBounds(value: Uncertain, dimension: Dimension, bounds: Bounds, text: string): Read<Uncertain> {
  const { low = -Infinity, high = Infinity, positive = false } = bounds
  const ends = value.kind === 'uniform' ? [value.low, value.high] : [best(value)]
  const floor = positive ? Math.max(low, 0) : low
  if (ends.every((end) => end >= floor && end <= high && !(positive && end === 0))) return { ok: true, value }
  const say = (bound: number) => formatQuantity(bound, dimension)
  const expected =
    high === Infinity
      ? positive && floor === 0
        ? 'more than zero'
        : `at least ${say(floor)}`
      : `from ${say(floor)} to ${say(high)}`
  return {
    ok: false,
    problem: {
      code: 'out-of-range',
      message: `${text} is outside what can be`,
      expected,
      cure: 'check the number, its sign and its unit',
      start: 0,
      end: text.length,
    },
  }
}

function shifted(problem: FieldProblem, by: number): FieldProblem {
  return problem.start === undefined || problem.end === undefined
    ? problem
    : { ...problem, start: problem.start + by, end: problem.end + by }
}

const isMapping = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Leaves a problem with the parser; what is returned is never seen, because reading has failed. */
function refuse(
  context: z.core.$RefinementCtx,
  input: unknown,
  problem: FieldProblem,
  path: string[] = [],
): never {
  context.issues.push({ code: 'custom', input, path, message: problem.message, params: { problem } })
  return z.NEVER
}
