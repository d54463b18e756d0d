/** Measured values as they are written into a file: a value and its expanded uncertainty, rounded to digits that mean something. */
import { coverageFactor } from '../numeric/student.ts'
import type { Path } from '../outpost/file/diagnostic.ts'
import type { Estimate } from '../quantity/estimate.ts'
import { formatUncertain } from '../quantity/format-uncertain.ts'
import { isRounding } from '../quantity/measured.ts'
import { meanOf, standardUncertainty } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'

/** A number as it would be written, without its source. */
export interface AdoptedNumber {
  readonly path: Path
  readonly text: string
  /** Measured states that it is of, as indices. */
  readonly states: readonly number[]
}

/** Numbers, and in sentences what the measurement does not settle. */
export interface Adopted {
  readonly numbers: readonly AdoptedNumber[]
  readonly notes: readonly string[]
}

/** What twice the standard uncertainty covers of a normal law (JCGM 100, table G.1). */
const COVERAGE = 0.954_499_736_103_642
const DIGITS_WHEN_EXACT = 6

/**
 * `x ± U`: k = 2 where u is well known, Student's factor where it comes from few values (JCGM 100, G.3.2). A positive
 * quantity whose best value is not above zero is written as an upper limit.
 */
export function asWritten({ value, u, dof }: Estimate): Uncertain {
  if (u === 0 || isRounding(value, u))
    return { kind: 'exact', value: Number(value.toPrecision(DIGITS_WHEN_EXACT)) }
  const expanded = coverageFactor(COVERAGE, dof ?? Infinity) * u
  const [, exponent] = expanded.toExponential(1).split('e')
  const place = Number(exponent) - 1
  if (value <= 0) return { kind: 'below', limit: atPlace(Math.max(value, 0) + expanded, place, Math.ceil) }
  return {
    kind: 'normal',
    value: atPlace(value, place, Math.round),
    u: atPlace(expanded, place, Math.ceil) / 2,
  }
}

/** A multiple of 10^place; a rounding error of the division does not push it one up. */
function atPlace(x: number, place: number, round: (x: number) => number): number {
  const units = Number((x / 10 ** place).toPrecision(12))
  return Number(`${round(units)}e${place}`)
}

/** A measured current less what flows beside it at all times; of an upper limit, less the best value of it. */
export function without(current: Uncertain, always: readonly Uncertain[]): Uncertain {
  const beside = always.reduce((sum, each) => sum + meanOf(each), 0)
  if (current.kind === 'below') return { kind: 'below', limit: current.limit - beside }
  if (current.kind === 'uniform')
    return { kind: 'uniform', low: current.low - beside, high: current.high - beside }
  const u = Math.hypot(standardUncertainty(current), ...always.map(standardUncertainty))
  return { kind: 'normal', value: meanOf(current) - beside, u }
}

const DIGITS_OF_RANGE = 3

/** What an instrument read as zero stays an upper limit, and what it read so in part a range, rounded to its wide side. */
export function currentText(current: Uncertain): string {
  if (current.kind === 'below') return formatUncertain(current, 'current')
  if (current.kind === 'uniform') {
    const place = Number(current.high.toExponential().split('e')[1]) + 1 - DIGITS_OF_RANGE
    const low = atPlace(Math.max(current.low, 0), place, Math.floor)
    const high = atPlace(current.high, place, Math.ceil)
    return formatUncertain({ kind: 'uniform', low, high }, 'current')
  }
  const estimate = { value: meanOf(current), u: standardUncertainty(current), dof: Infinity }
  return formatUncertain(asWritten(estimate), 'current')
}
