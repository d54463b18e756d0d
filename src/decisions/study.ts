/** A question that is answered by playing runs: what it asks for, and how several go on side by side. */
import type { Asked, Survived } from './common-runs.ts'

/** Asks for runs and is given the counts of each pick, in order; whoever drives it decides where they are played. */
export type Study<Result> = Generator<readonly Asked[], Result, readonly (readonly Survived[])[]>

/** All the studies at once: each round asks for what every open one asks for, so that none waits for another. */
export function* inParallel<Result>(studies: readonly Study<Result>[]): Study<Result[]> {
  const steps = studies.map((study) => study.next([]))
  for (;;) {
    const asked = steps.map((step) => (step.done ? [] : step.value))
    if (asked.every((each) => each.length === 0)) break
    const answers = yield asked.flat()
    let at = 0
    for (const [i, { length }] of asked.entries()) {
      if (length === 0) continue
      steps[i] = studies[i].next(answers.slice(at, at + length))
      at += length
    }
  }
  return steps.flatMap((step) => (step.done ? [step.value] : []))
}
