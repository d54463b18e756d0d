/** Fields of the file that hold a number with its unit, checked for shape, unit and bounds as they are read. */
import type { Dimension } from '../../quantity/dimension.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
import type { Uncertain } from '../../quantity/uncertain.ts'
import { MOST } from './most.ts'
import { type About, type Bare, type FieldProblem, type Read, sourcedField } from './sourced-field.ts'

/** Behind ± stands twice the standard uncertainty. */
const COVERAGE = 2

export interface Bounds {
  /** Lowest and highest value allowed, in base units. */
  readonly low?: number
  readonly high?: number
  /** Zero itself is not allowed. */
  readonly positive?: boolean
}

/** A number, perhaps with a tolerance. */
export const quantity = (dimension: Dimension, about: About, bounds: Bounds = {}) =>
  sourcedField(bareNumbers(dimension, bounds), about, (text) => readUncertain(text, dimension, bounds))

/** Two numbers with a word between them: `310 mA for 8 ms`, `5.5 V at 180 mA`. */
export function pair(first: Dimension, word: 'for' | 'at', second: Dimension, about: About) {
  return sourcedField('none', about, (text): Read<readonly [Uncertain, Uncertain]> => {
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

/** Angles are degrees, ratios and counts have no unit, and zero is zero in any, but for the scale of temperatures. */
function bareNumbers(dimension: Dimension, { low = 0, high = 0, positive = false }: Bounds): Bare {
  if (['ratio', 'angle', 'count'].includes(dimension)) return 'all'
  return dimension === 'temperature' || positive || low > 0 || high < 0 ? 'none' : 'zero'
}

export function readUncertain(text: string, dimension: Dimension, bounds: Bounds): Read<Uncertain> {
  const bareAngle = dimension === 'angle' && /^[-+−\d.\s±]+$/.test(text)
  const parsed = parseUncertain(bareAngle ? `${text}°` : text, dimension)
  if (!parsed.ok) return { ok: false, problem: parsed.problem }
  return withinBounds(parsed.value, dimension, bounds, text)
}

function withinBounds(value: Uncertain, dimension: Dimension, bounds: Bounds, text: string): Read<Uncertain> {
  const { low = -Infinity, high = Infinity, positive = false } = bounds
  const most = MOST[dimension] ?? Infinity
  const ends = value.kind === 'uniform' ? [value.low, value.high] : [best(value)]
  const floor = positive ? Math.max(low, 0) : low
  const isHuge = farthest(value) > most
  const fits = ends.every((end) => end >= floor && end <= high && !(positive && end === 0))
  if (fits && !isHuge) return { ok: true, value }
  const say = (bound: number) => formatQuantity(bound, dimension)
  const expected =
    high < Infinity
      ? `from ${say(floor)} to ${say(high)}`
      : isHuge
        ? `at most ${say(most)}`
        : positive && floor === 0
          ? 'more than zero'
          : `at least ${say(floor)}`
  return {
    ok: false,
    problem: {
      code: 'out-of-range',
      message: `${text} is outside what can be`,
      expected,
      cure: percentOf(text, dimension, bounds) ?? 'check the number, its sign and its unit',
      start: 0,
      end: text.length,
    },
  }
}

/** `95` where a share is asked: the sign was left out, if with it the number can be. */
function percentOf(text: string, dimension: Dimension, bounds: Bounds): string | null {
  if (dimension !== 'ratio' || !/\d$/.test(text)) return null
  const meant = `${text} %`
  return readUncertain(meant, dimension, bounds).ok ? `write "${meant}"` : null
}

/** How far from zero the values go that are stated; of a tolerance, its two ends. */
function farthest(value: Uncertain): number {
  switch (value.kind) {
    case 'normal':
      return Math.abs(value.value) + COVERAGE * value.u
    case 'uniform':
      return Math.max(-value.low, value.high)
    case 'below':
      return value.limit
    case 'skewed':
      return Math.max(-value.p5, value.p95)
    default:
      return Math.abs(value.value)
  }
}

function shifted(problem: FieldProblem, by: number): FieldProblem {
  return problem.start === undefined || problem.end === undefined
    ? problem
    : { ...problem, start: problem.start + by, end: problem.end + by }
}
