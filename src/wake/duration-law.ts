/** The law of a wake's duration: every length it can have, with its probability. Seconds. */
import { outcomesOf, stepsOf } from './outcomes.ts'
import { turnsOf } from './turns.ts'
import type { Wake } from './wake.ts'

export interface Length {
  readonly duration_s: number
  readonly probability: number
}

/** Lengths closer than this are the same: sums of the same steps in another order. */
const SAME_s = 1e-9
/** The law is exact up to so many lengths; beyond, neighbours are joined at their mean. */
const MOST_LENGTHS = 2048

/** Lengths in rising order, averaged over the cycle of turns; probabilities add up to 1 and the mean is exact. */
export function durationLaw(wake: Wake<number>): Length[] {
  const steps = stepsOf(wake)
  const outcomes = steps.map((step) => outcomesOf(step, wake.rest_A))
  const ended: Length[] = []
  for (const { share, due } of turnsOf(steps.map((step) => step.every))) {
    let going: Length[] = [{ duration_s: 0, probability: share }]
    for (const [k, step] of steps.entries()) {
      if (!due.has(step.every)) continue
      const next: Length[] = []
      for (const so of going)
        for (const { probability, duration_s, goesOn } of outcomes[k])
          (goesOn ? next : ended).push({
            duration_s: so.duration_s + duration_s,
            probability: so.probability * probability,
          })
      going = merged(next)
    }
    ended.push(...going)
  }
  return merged(ended)
}

function merged(lengths: Length[]): Length[] {
  const sorted = lengths.sort((a, b) => a.duration_s - b.duration_s)
  let out: Length[] = []
  for (const length of sorted) {
    const last = out.at(-1)
    if (last !== undefined && length.duration_s - last.duration_s < SAME_s)
      out[out.length - 1] = join(last, length)
    else out.push(length)
  }
  while (out.length > MOST_LENGTHS)
    out = out.flatMap((length, i) =>
      i % 2 === 1 ? [] : i + 1 < out.length ? [join(length, out[i + 1])] : [length],
    )
  return out
}

function join(a: Length, b: Length): Length {
  const probability = a.probability + b.probability
  const towardsB = b.probability / probability
  return { duration_s: a.duration_s + towardsB * (b.duration_s - a.duration_s), probability }
}
