/** What a design allows: charge of a step and of a cycle, and how far their tolerances let them rise. Coulombs. */
import { type Model, propagate } from '../quantity/propagate.ts'
import { meanOf } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import { momentsOf } from '../wake/moments.ts'
import type { Peak, Step, Wake } from '../wake/wake.ts'
import { asEstimate, riseAllowed } from './gate-decision.ts'

/** What a budget says of one quantity, in base units. */
export interface Allowance {
  /** With every number at its mean. */
  readonly value: number
  /** The most that the tolerances allow, as written. */
  readonly limit: number
}

/** One doing of a step, its peak in it, with what flows always beside it: its charge, and its mean current. */
export function stepBudget(
  step: Step,
  always: readonly Uncertain[],
): { readonly charge_C: Allowance; readonly current_A: Allowance } {
  const peak = step.peak === null ? [] : [step.peak.current_A, step.peak.duration_s]
  const inputs = [step.current_A, step.duration_s, ...always, ...peak]
  const charge = (x: readonly number[]) => {
    const [current_A, duration_s] = x
    const always_A = sum(x.slice(2, 2 + always.length))
    const [peak_A = 0, peak_s = 0] = x.slice(2 + always.length)
    const within_s = Math.min(peak_s, duration_s)
    return peak_A * within_s + current_A * (duration_s - within_s) + always_A * duration_s
  }
  const [charge_C, current_A] = allowances((x) => [charge(x), charge(x) / x[1]], inputs)
  return { charge_C, current_A }
}

/** Mean of a whole cycle that lasts `period_s`: the wake, and rest until the next; chances and retries at their best. */
export function cycleCharge(wake: Wake, always: readonly Uncertain[], period_s: number): Allowance {
  const numbers = [wake.rest_A, ...always, ...wake.boot.flatMap(numbersOf), ...wake.steps.flatMap(numbersOf)]
  const charge = (x: readonly number[]) => {
    const queue = [...x]
    const rest_A = queue.shift() ?? 0
    const always_A = sum(queue.splice(0, always.length))
    const boot = wake.boot.map((step) => withNumbers(step, queue))
    const steps = wake.steps.map((step) => withNumbers(step, queue))
    const design: Wake<number> = {
      boot,
      steps,
      rest_A,
      resume: wake.resume,
      keeps: wake.keeps,
      standing: [],
      cadence: { schedule: null, events: null, thrift: [] },
    }
    const { charge_C, duration_s } = momentsOf(design).total
    return charge_C + rest_A * Math.max(period_s - duration_s, 0) + always_A * period_s
  }
  return allowances((x) => [charge(x)], numbers)[0]
}

function allowances(model: Model, budget: readonly Uncertain[]): Allowance[] {
  const inputs = budget.map(asEstimate)
  const { outputs, sensitivities } = propagate(model, inputs)
  return outputs.map(({ value }, k) => ({ value, limit: value + riseAllowed(budget, sensitivities[k]) }))
}

const numbersOf = ({ current_A, duration_s, peak }: Step): Uncertain[] => [
  current_A,
  duration_s,
  ...(peak === null ? [] : [peak.current_A, peak.duration_s]),
]

/** The step with the next numbers of the queue, in the order of `numbersOf`. */
function withNumbers(step: Step, queue: number[]): Step<number> {
  const next = () => queue.shift() ?? 0
  const { retries } = step
  const current_A = next()
  const duration_s = next()
  const peak: Peak<number> | null = step.peak === null ? null : { current_A: next(), duration_s: next() }
  return {
    ...step,
    current_A,
    duration_s,
    peak,
    chance: meanOf(step.chance),
    retries:
      retries === null
        ? null
        : {
            times: retries.times,
            probability: meanOf(retries.probability),
            backoff_s: meanOf(retries.backoff_s),
            failedDuration_s: meanOf(retries.failedDuration_s),
          },
  }
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0)
