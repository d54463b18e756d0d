/** A measured device against its budget: each step, the rest, the drains, the whole cycle. */
import { wilson } from '../numeric/wilson.ts'
import type { Estimate } from '../quantity/estimate.ts'
import { best, meanOf } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import { stepsOf } from '../wake/outcomes.ts'
import type { Step, Wake } from '../wake/wake.ts'
import { type Allowance, cycleCharge, stepBudget } from './gate-budget.ts'
import {
  type Decision,
  decideBelow,
  decideBetween,
  decideUncertain,
  riseAllowed,
  type Verdict,
} from './gate-decision.ts'
import type { Measured, MeasuredCharge, MeasuredStep, OtherState } from './match-steps-measure.ts'
import type { Shortfall } from './match-steps-shortfall.ts'

/** One quantity beside what is allowed of it, in base units. */
export interface Comparison extends Decision {
  readonly quantity: 'charge' | 'current' | 'duration'
  readonly measured: Uncertain
  readonly budget: number
  /** The end of the budget's tolerance, with the slack beside; from `side` it must not be passed. */
  readonly limit: number
  readonly side: 'at most' | 'at least'
}

export interface GateItem {
  readonly kind: 'step' | 'rest' | 'drain' | 'state' | 'cycle' | 'period'
  readonly name: string
  readonly verdict: Verdict
  /** What decides; null where there is nothing to compare, and `why` says so. */
  readonly decided: Comparison | null
  readonly why: string | null
  /** What a charge is made of: these tell where an excess comes from, and decide nothing. */
  readonly parts: readonly Comparison[]
  /** Measured states that it is, as indices. */
  readonly states: readonly number[]
}

export interface Gate {
  readonly verdict: Verdict
  readonly items: readonly GateItem[]
}

export interface GateOptions {
  /** Allowed beyond the budget's tolerance, as a share of the limit. */
  readonly slack: number
  /** What else the instrument saw at all times, standing drains included. */
  readonly always: readonly Uncertain[]
  /** The mean time from wake to wake by the cadence, where that is to be judged; null where it is not. */
  readonly period_s: number | null
}

/** Clocks without a crystal run wrong by so much (common practice); a period is not judged more finely. */
const CLOCK_TOLERANCE = 0.01

/** States with a smaller share of a wake's charge are left to the comparison of the whole cycle. */
const LEAST_SHARE = 0.01

export function gateOf(measured: Measured, wake: Wake, options: GateOptions): Gate {
  const items = [
    ...stepsOf(wake).map((step, k) => stepItem(measured.steps[k], step, options)),
    restItem(measured, wake, options),
    ...wake.standing.flatMap(({ name, current_A }, k): GateItem[] => {
      const drain = measured.drains[k]
      return drain === null ? [] : [judged('drain', name, compare('current', drain, current_A, options))]
    }),
    ...measured.others.filter(({ share }) => share >= LEAST_SHARE).map(otherItem),
    cycleItem(measured, wake, options),
    ...periodItem(measured, options),
  ]
  return { verdict: worst(items.map(({ verdict }) => verdict)), items }
}

/** What the budget does not know of has no charge in it. */
function otherItem({ state, charge_C }: OtherState): GateItem {
  const decided: Comparison = {
    quantity: 'charge',
    measured: { kind: 'exact', value: charge_C },
    budget: 0,
    limit: 0,
    side: 'at most',
    verdict: 'fail',
    probability: 0,
  }
  return { ...judged('state', '', decided), why: 'it is in no step of the budget', states: [state] }
}

function worst(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes('fail')) return 'fail'
  return verdicts.includes('cannot tell') ? 'cannot tell' : 'pass'
}

const nothing = (kind: GateItem['kind'], name: string, verdict: Verdict, why: string): GateItem => ({
  kind,
  name,
  verdict,
  decided: null,
  why,
  parts: [],
  states: [],
})

function judged(kind: GateItem['kind'], name: string, decided: Comparison): GateItem {
  return { kind, name, verdict: decided.verdict, decided, why: null, parts: [], states: [] }
}

const SHORT: Readonly<Record<Shortfall, string>> = {
  clipped: 'the range ended below its highest current, so it is more than was measured',
  incomplete: 'in most wakes time of it was not measured',
  'beyond ranges': 'it is beyond every range of the instrument, so how far off that was is not known',
}

/**
 * What was clipped or not measured only adds to it: a fail stands, and nobody can tell of a pass. The same holds beyond
 * every range, where a current is high before all else; there the reason is told beside a fail as well.
 */
function despite(item: GateItem, shortfall: Shortfall | null): GateItem {
  if (shortfall === null) return item
  if (item.verdict !== 'fail') return { ...item, verdict: 'cannot tell', why: SHORT[shortfall] }
  return shortfall === 'beyond ranges' ? { ...item, why: SHORT[shortfall] } : item
}

function stepItem(found: MeasuredStep | null, step: Step, options: GateOptions): GateItem {
  const { name, chance, every } = step
  const share = best(chance) / every
  if (found === null)
    return share < 1
      ? nothing('step', name, 'pass', 'not seen in this recording; it does not come in every wake')
      : nothing('step', name, 'cannot tell', 'not seen in this recording')
  const [decided, ...parts] = stepComparisons(found, step, options)
  const item = despite({ ...judged('step', name, decided), parts, states: found.states }, found.shortfall)
  return found.wakes > 0 && wilson(found.seen, found.wakes).low > share
    ? {
        ...item,
        verdict: 'fail',
        why: `it came in ${found.seen} of ${found.wakes} wakes, and by the budget comes in one of ${Number((1 / share).toPrecision(3))}`,
      }
    : item
}

/** The charge, which decides, and what it is made of; of a step that was never seen whole, its current alone. */
function stepComparisons(
  { current, charge_C, duration_s }: MeasuredStep,
  step: Step,
  options: GateOptions,
): readonly Comparison[] {
  const { slack, always } = options
  if (charge_C === null || duration_s === null) return [compare('current', current, step.current_A, options)]
  const budget = stepBudget(step, always)
  return [
    compareCharge(charge_C, budget.charge_C, slack),
    step.peak === null
      ? compare('current', current, step.current_A, options)
      : compareUncertain('current', current, budget.current_A, slack),
    compare('duration', asNormal(duration_s), step.duration_s, { ...options, always: [] }),
  ]
}

function restItem({ rest, shortfalls }: Measured, wake: Wake, options: GateOptions): GateItem {
  return rest === null
    ? nothing('rest', 'rest', 'cannot tell', 'the recording shows no rest')
    : despite(judged('rest', 'rest', compare('current', rest, wake.rest_A, options)), shortfalls.rest)
}

function cycleItem({ cycle, shortfalls }: Measured, wake: Wake, options: GateOptions): GateItem {
  if (cycle === null)
    return nothing(
      'cycle',
      'whole cycle',
      'cannot tell',
      shortfalls.cycle === null
        ? 'the recording holds no wake and the rest after it to the next wake'
        : 'in none of its cycles all time was measured',
    )
  const budget = cycleCharge(wake, options.always, cycle.period_s.value)
  const comparison = compareCharge(cycle.charge_C, budget, options.slack)
  return despite(judged('cycle', 'whole cycle', comparison), shortfalls.cycle)
}

/** Wakes that come too often fail: the period is to be no shorter than the cadence's. */
function periodItem({ cycle }: Measured, { period_s }: GateOptions): GateItem[] {
  if (period_s === null) return []
  if (cycle === null)
    return [nothing('period', 'time between wakes', 'cannot tell', 'no whole cycle to time')]
  const limit = period_s * (1 - CLOCK_TOLERANCE)
  const { value, u, dof } = cycle.period_s
  const decision = decideBelow({ value: -value, u, dof }, -limit)
  const measured = asNormal(cycle.period_s)
  return [
    judged('period', 'time between wakes', {
      quantity: 'duration',
      measured,
      budget: period_s,
      limit,
      side: 'at least',
      ...decision,
    }),
  ]
}

/** A number beside its budget and all that flows always; tolerances add in squares, as they do in the budget. */
function compare(
  quantity: Comparison['quantity'],
  measured: Uncertain,
  budget: Uncertain,
  { slack, always }: GateOptions,
): Comparison {
  const beside = always.reduce((sum, each) => sum + meanOf(each), 0)
  const numbers = [budget, ...always]
  const rise = riseAllowed(
    numbers,
    numbers.map(() => 1),
  )
  const limit = meanOf(budget) + beside + rise
  return compareUncertain(quantity, measured, { value: best(budget) + beside, limit }, slack)
}

function compareUncertain(
  quantity: Comparison['quantity'],
  measured: Uncertain,
  budget: Allowance,
  slack: number,
): Comparison {
  const limit = budget.limit * (1 + slack)
  const decision = decideUncertain(measured, limit)
  return { quantity, measured, budget: budget.value, limit, side: 'at most', ...decision }
}

function compareCharge(measured: MeasuredCharge, budget: Allowance, slack: number): Comparison {
  const limit = budget.limit * (1 + slack)
  const { ends } = measured
  const decision = ends === null ? decideBelow(measured, limit) : decideBetween(...ends, limit)
  return {
    quantity: 'charge',
    measured: asNormal(measured),
    budget: budget.value,
    limit,
    side: 'at most',
    ...decision,
  }
}

const asNormal = ({ value, u }: Estimate): Uncertain =>
  u === 0 ? { kind: 'exact', value } : { kind: 'normal', value, u }
