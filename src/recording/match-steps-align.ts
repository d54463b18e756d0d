/**
 * Places of a wake set against steps in order. Each step takes a run of places, or none; a place may be left. The least
 * cost is found by dynamic programming over (places done, steps done), the few best readings kept at each point.
 */
import { best, standardUncertainty } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Step } from '../wake/wake.ts'

export interface Place {
  readonly state: number
  readonly current_A: number
  readonly duration_s: number
}

interface Reading {
  /** Sum of squared deviations: twice the negative logarithm of a likelihood. */
  readonly cost: number
  /** For each place the step, null where it is left, and what the run of places that it is in costs. */
  readonly steps: readonly (number | null)[]
  readonly costs: readonly number[]
}

export interface Alignment {
  readonly best: Reading
  /** Readings at least one twentieth as likely. */
  readonly others: readonly Reading[]
}

// Our own choices. A budget is a guess before the first measurement: a factor of 1.3 in current, or of 1.6 in duration,
// is one standard deviation, on a logarithmic scale. A further level within a step costs a little, so that a new state
// does not vanish in a step beside it.
const SPREAD_OF_CURRENT = Math.log(1.3)
const SPREAD_OF_DURATION = Math.log(1.6)
const JOINED = 2
const LEFT = 10
const MISSED = 16
/** A step by chance, or of every n-th wake, may well not be seen. */
const SOMETIMES_MISSED = 2
/** Twice the logarithm of twenty. */
const CLOSE = 6
const KEPT = 4

export function alignSteps(places: readonly Place[], steps: readonly Step[]): Alignment {
  const points: Reading[][][] = Array.from({ length: places.length + 1 }, () =>
    Array.from({ length: steps.length + 1 }, () => []),
  )
  points[0][0] = [{ cost: 0, steps: [], costs: [] }]
  for (let i = 0; i <= places.length; i++)
    for (let s = 0; s <= steps.length; s++) {
      const here = bestOf(points[i][s])
      points[i][s] = here
      for (const reading of here) {
        if (s < steps.length) points[i][s + 1].push(more(reading, missed(steps[s]), 0, null))
        if (i < places.length) points[i + 1][s].push(more(reading, LEFT, 1, null))
        if (s < steps.length)
          for (let j = i + 1; j <= places.length; j++)
            points[j][s + 1].push(more(reading, joined(places.slice(i, j), steps[s]), j - i, s))
      }
    }
  const [first, ...rest] = points[places.length][steps.length]
  return { best: first, others: rest.filter(({ cost }) => cost < first.cost + CLOSE) }
}

function more(reading: Reading, cost: number, places: number, step: number | null): Reading {
  return {
    cost: reading.cost + cost,
    steps: [...reading.steps, ...new Array<number | null>(places).fill(step)],
    costs: [...reading.costs, ...new Array<number>(places).fill(cost)],
  }
}

/** The few of least cost, each way of reading once: leaving and missing come in any order. */
function bestOf(readings: readonly Reading[]): Reading[] {
  const seen = new Set<string>()
  return readings
    .toSorted((a, b) => a.cost - b.cost)
    .filter(({ steps }) => {
      const key = steps.join()
      return !seen.has(key) && seen.add(key)
    })
    .slice(0, KEPT)
}

/** It is done in every wake. */
export const isCertain = ({ chance, every }: Step): boolean => every === 1 && best(chance) === 1

const missed = (step: Step): number => (isCertain(step) ? MISSED : SOMETIMES_MISSED)

function joined(run: readonly Place[], step: Step): number {
  return unlikeness(run, step) + JOINED * (run.length - 1)
}

function unlikeness(run: readonly Place[], step: Step): number {
  const duration_s = run.reduce((sum, place) => sum + place.duration_s, 0)
  const charge_C = run.reduce((sum, place) => sum + place.current_A * place.duration_s, 0)
  return (
    square(charge_C / duration_s, step.current_A, SPREAD_OF_CURRENT) +
    square(duration_s, step.duration_s, SPREAD_OF_DURATION)
  )
}

/** Squared deviation on a logarithmic scale; of what is not above zero nothing is known. */
function square(measured: number, budget: Uncertain, spread: number): number {
  const expected = best(budget)
  if (!(measured > 0 && expected > 0)) return 0
  return Math.log(measured / expected) ** 2 / (spread ** 2 + (standardUncertainty(budget) / expected) ** 2)
}
