/**
 * Exact expectation and variance of what one wake takes. Coulombs and amperes at the device's rail, seconds. The
 * standing drains flow on beside a wake and are not in it; the rest current flows in it only during back-offs.
 */
import { type Outcome, outcomesOf, stepsOf } from './outcomes.ts'
import type { Segment } from './segments.ts'
import { average, certain, mixture, NOTHING, plus, type Spread } from './spread.ts'
import { turnsOf } from './turns.ts'
import type { Step, Wake } from './wake.ts'

/** Expected seconds per wake at one current. */
interface Level {
  readonly kind: Segment['kind']
  readonly current_A: number
  readonly duration_s: number
}

interface StepMoments {
  readonly step: Step<number>
  /** What the step takes of a wake, over all wakes: also those in which it is not done. */
  readonly spread: Spread
  /** Share of all wakes that come to the step in its turn, whether or not chance then lets it happen. */
  readonly reached: number
  /** The same charge by current, for what is not linear in it (a regulator's efficiency). */
  readonly levels: readonly Level[]
  readonly reports: number
}

export interface WakeMoments {
  /** One wake picked from all: variance within wakes and between wakes of different turns. */
  readonly total: Spread
  /** A wake whose turn is known: variance from chances and retries alone, averaged over the cycle of turns. */
  readonly within: Spread
  /** In order, boot steps first where the device restarts. */
  readonly steps: readonly StepMoments[]
  /** Expected reports of one wake. */
  readonly reports: number
  /** Probability that no step fails for good, so that the wake gets to its end. */
  readonly completes: number
}

/** A run's plan, schedule and budget all ask for those of its one drawn wake. */
const known = new WeakMap<Wake<number>, WakeMoments>()

/** Throws RangeError where a step's numbers are impossible (see `outcomesOf` and `turnsOf`). */
export function momentsOf(wake: Wake<number>): WakeMoments {
  let moments = known.get(wake)
  if (moments === undefined) {
    moments = computed(wake)
    known.set(wake, moments)
  }
  return moments
}

function computed(wake: Wake<number>): WakeMoments {
  const steps = stepsOf(wake)
  const outcomes = steps.map((step) => outcomesOf(step, wake.rest_A))
  const reached = steps.map(() => 0)
  let completes = 0
  const parts = turnsOf(steps.map((step) => step.every)).map(({ share, due }) => {
    let alive = share
    for (const [k, step] of steps.entries())
      if (due.has(step.every)) {
        reached[k] += alive
        alive *= expected(outcomes[k], ({ goesOn }) => Number(goesOn))
      }
    completes += alive
    return { share, spread: inSequence(outcomes.filter((_, k) => due.has(steps[k].every))) }
  })
  const moments = steps.map((step, k) => stepMoments(step, outcomes[k], reached[k]))
  return {
    total: mixture(parts),
    within: average(parts),
    steps: moments,
    reports: moments.reduce((sum, { reports }) => sum + reports, 0),
    completes,
  }
}

/** From the last step back: what remains after a step is either all that follows, or nothing where it ends the wake. */
function inSequence(outcomes: readonly Outcome[][]): Spread {
  return outcomes.reduceRight(
    (later, step) =>
      mixture(
        step.map(({ probability, charge_C, duration_s, goesOn }) => {
          const now = certain(charge_C, duration_s)
          return { share: probability, spread: goesOn ? plus(now, later) : now }
        }),
      ),
    NOTHING,
  )
}

function stepMoments(step: Step<number>, outcomes: readonly Outcome[], reached: number): StepMoments {
  const levels = new Map<Segment['kind'], Level>()
  for (const { probability, segments } of outcomes)
    for (const { kind, current_A, duration_s } of segments) {
      const before = levels.get(kind)?.duration_s ?? 0
      levels.set(kind, { kind, current_A, duration_s: before + reached * probability * duration_s })
    }
  const done = mixture(
    outcomes.map(({ probability, charge_C, duration_s }) => ({
      share: probability,
      spread: certain(charge_C, duration_s),
    })),
  )
  return {
    step,
    spread: mixture([
      { share: reached, spread: done },
      { share: 1 - reached, spread: NOTHING },
    ]),
    reached,
    levels: [...levels.values()],
    reports: reached * expected(outcomes, ({ reports }) => reports),
  }
}

function expected(outcomes: readonly Outcome[], of: (outcome: Outcome) => number): number {
  return outcomes.reduce((sum, outcome) => sum + outcome.probability * of(outcome), 0)
}
