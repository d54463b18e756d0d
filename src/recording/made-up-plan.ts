/**
 * Draws made-up cases: 3 to 8 states from 20 µA to 500 mA, noise up to 20 % of a level, drift, hum, ripple, bursts,
 * rounding, jitter, and wakes that go wrong. What a case can hold is stated in docs/models/states.md.
 */
import { stream } from '../numeric/random.ts'
import type { MadeUpOddity, MadeUpPlan, MadeUpVisit } from './made-up.ts'

const DEVICE = 0
/** Of the first take; each take has a purpose of its own. */
const WAKES = 1000
/** Two levels of a case differ at least by this factor: 50 mA while joining and 30 mA while joined are two states. */
const LEAST_RATIO = 1.6
const SHORTEST_SAMPLES = 20
/** Nothing wakes more often. */
const LEAST_PERIOD_S = 0.1
/** A converter's bursts come every few milliseconds; sampled more slowly they are no bursts. */
const LONGEST_BURST_STEP_S = 1 / 3000

interface Dice {
  chance(p: number): boolean
  whole(low: number, high: number): number
  between(low: number, high: number): number
  /** Evenly spread on a logarithmic scale. */
  scale(low: number, high: number): number
}

function dice(seed: number, number: number, purpose: number): Dice {
  const draws = stream(seed, number, purpose)
  const between = (low: number, high: number) => low + (high - low) * draws.uniform()
  return {
    chance: (p) => draws.uniform() < p,
    between,
    whole: (low, high) => Math.floor(between(low, high + 1)),
    scale: (low, high) => low * (high / low) ** draws.uniform(),
  }
}

/**
 * Case `number` of `seed`, mostly 100 000 to 400 000 samples. Another `take` is another recording of the same device: its
 * levels, noise and habits are the same, what happens in each wake is drawn anew. Equal arguments give equal plans.
 */
export function madeUpPlan(seed: number, number: number, take = 0): MadeUpPlan {
  const roll = dice(seed, number, DEVICE)
  const levels_A = drawLevels(roll, roll.whole(3, 8))
  const interval_s = 1 / roll.scale(200, 50_000)
  const work = drawWork(roll, levels_A.length, interval_s)
  const habits = drawHabits(roll, work, interval_s)
  const noise = roll.scale(0.002, 0.2)
  const share = (p: number, low: number, high: number) => (roll.chance(p) ? roll.between(low, high) : 0)
  return {
    interval_s,
    levels_A,
    ...drawWakes(dice(seed, number, WAKES + take), work, habits, levels_A.length, interval_s),
    noise: levels_A.map(() => noise * roll.between(0.5, 1)),
    correlation: share(0.3, 0, 0.6),
    drift: { rise: share(0.4, -0.1, 0.1), wave: share(0.2, 0, 0.05) },
    hum: roll.chance(0.3)
      ? { frequency_Hz: roll.chance(0.5) ? 50 : 60, amplitude_A: levels_A[0] * roll.between(0.02, 0.3) }
      : null,
    ripple: roll.chance(0.2) ? { period: roll.whole(3, 10), share: roll.between(0.01, 0.05) } : null,
    bursts:
      roll.chance(0.25) && interval_s < LONGEST_BURST_STEP_S
        ? { period: roll.whole(20, 60), length: roll.whole(1, 2), share: roll.between(0.2, 0.5) }
        : null,
    digit_A: roll.chance(0.5) ? levels_A[0] / roll.scale(5, 50) : null,
  }
}

/** Levels with rest, the lowest, first and the others in any order. */
function drawLevels(roll: Dice, count: number): number[] {
  for (;;) {
    const rest = roll.scale(20e-6, 2e-3)
    const others = Array.from({ length: count - 1 }, () => roll.scale(3 * rest, 0.5))
    const sorted = [rest, ...others].sort((a, b) => a - b)
    if (sorted.every((level, k) => k === 0 || level >= LEAST_RATIO * sorted[k - 1])) return [rest, ...others]
  }
}

/** One wake as it should be: every state once, sometimes one of them again. */
function drawWork(roll: Dice, states: number, interval_s: number): MadeUpVisit[] {
  const work = Array.from({ length: states - 1 }, (_, k) => ({
    state: k + 1,
    duration_s: roll.scale(1.2 * SHORTEST_SAMPLES, 1200) * interval_s,
  }))
  if (states > 3 && roll.chance(0.4)) work.push({ ...work[roll.whole(0, work.length - 2)] })
  return work
}

interface Habits {
  readonly wakes: number
  readonly period_s: number
  /** Share of the period by which it varies either way. */
  readonly jitter: number
  /** Probability that a wake goes wrong. */
  readonly trouble: number
}

function drawHabits(roll: Dice, work: readonly MadeUpVisit[], interval_s: number): Habits {
  const work_s = work.reduce((sum, { duration_s }) => sum + duration_s, 0)
  const wakes = roll.whole(8, 40)
  const samples = roll.scale(100_000, 400_000)
  return {
    wakes,
    period_s: Math.max((samples * interval_s) / wakes, work_s * roll.scale(2, 10), LEAST_PERIOD_S),
    jitter: roll.chance(0.6) ? roll.scale(0.001, 0.1) : 0,
    trouble: roll.between(0, 0.15),
  }
}

function drawWakes(
  roll: Dice,
  work: readonly MadeUpVisit[],
  { wakes: count, period_s, jitter, trouble }: Habits,
  states: number,
  interval_s: number,
) {
  const visits: MadeUpVisit[] = [{ state: 0, duration_s: period_s * roll.between(0.2, 0.8) }]
  const wakes: { visit: number; odd: MadeUpOddity | null }[] = []
  for (let k = 0; k < count; k++) {
    const odd = k > 0 && roll.chance(trouble) ? ODDITIES[roll.whole(0, ODDITIES.length - 1)] : null
    const varied = work.map(({ state, duration_s }) => ({
      state,
      duration_s: Math.max(duration_s * roll.between(0.95, 1.05), SHORTEST_SAMPLES * interval_s),
    }))
    const played = troubled(roll, odd, varied, states, period_s)
    const done_s = played.reduce((sum, { duration_s }) => sum + duration_s, 0)
    const spread = 1 + jitter * roll.between(-1, 1)
    wakes.push({ visit: visits.length, odd })
    const missed_s = odd === 'missed' ? period_s : 0
    const rest_s = Math.max(period_s * spread - done_s, 0.3 * period_s) + missed_s
    visits.push(...played, { state: 0, duration_s: rest_s })
  }
  return { visits, wakes }
}

/** `missed` is a wake that is followed by a rest of one period more. */
const ODDITIES: readonly MadeUpOddity[] = ['retry', 'back-off', 'longer', 'missed', 'truncated', 'extra']

function troubled(
  roll: Dice,
  odd: MadeUpOddity | null,
  work: readonly MadeUpVisit[],
  states: number,
  period_s: number,
): MadeUpVisit[] {
  const at = roll.whole(0, work.length - 2)
  switch (odd) {
    case 'retry': // two steps are done once more
      return [...work.slice(0, at + 2), ...work.slice(at)]
    case 'back-off': // the same after a short rest
      return [...work.slice(0, at + 2), { state: 0, duration_s: 0.06 * period_s }, ...work.slice(at)]
    case 'longer':
      return work.map((visit, k) => (k === at ? { ...visit, duration_s: 2.5 * visit.duration_s } : visit))
    case 'truncated':
      return work.slice(0, at + 1)
    case 'extra': {
      // A state of the same device at an unusual place, unlike both of its neighbours there.
      const free = Array.from({ length: states - 1 }, (_, k) => k + 1).filter(
        (state) => state !== work[at].state && state !== work[at + 1].state,
      )
      if (free.length === 0) return troubled(roll, 'longer', work, states, period_s)
      const duration_s = work[at].duration_s
      const state = free[roll.whole(0, free.length - 1)]
      return [...work.slice(0, at + 1), { state, duration_s }, ...work.slice(at + 1)]
    }
    default:
      return [...work]
  }
}
