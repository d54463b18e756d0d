/** Everything that `size` asks, one question after another over the same evidence. */
import type { Share } from '../outlook/outlook.ts'
import { type Frontier, frontierOf } from './frontier.ts'
import { confirm, type Sized, type SizingAnswers, sizedOf, sizeEach } from './sizing.ts'
import { Evidence, type Ruling, runsForCleanSweep } from './sizing-evidence.ts'
import type { SizingSpace } from './sizing-space.ts'
import type { Study } from './study.ts'

export interface SizingStudy extends SizingAnswers {
  readonly frontier: Frontier
  readonly onPaper: { readonly design: Sized; readonly ruling: Ruling } | null
  /** Survival over fresh runs: of the smallest cell, the smallest panel, the shortest interval. */
  readonly confirmed: readonly (Share | null)[]
}

/** How much longer than a clean sweep a design may be played before it counts as undecided. */
const PATIENCE = { single: 4, frontier: 2 }

export interface StudyChoices {
  readonly wanted: number
  /** The most runs of one design; null for four times those of a clean sweep. */
  readonly runs: number | null
}

export function* sizingStudy(sizing: SizingSpace, { wanted, runs }: StudyChoices): Study<SizingStudy> {
  const { space, fine } = sizing
  const sweep = runsForCleanSweep(wanted)
  const evidence = new Evidence({ wanted, mostRuns: Math.max(runs ?? PATIENCE.single * sweep, sweep) })
  const answers = yield* sizeEach(space, fine, evidence)

  let onPaper: SizingStudy['onPaper'] = null
  if (sizing.onPaper !== null) {
    const ruling = yield* evidence.judge(sizing.onPaper)
    onPaper = { design: sizedOf(space, sizing.onPaper, evidence), ruling }
  }
  const chosen = [answers.smallestCell, answers.smallestPanel, answers.shortestInterval]
  const fresh = yield* confirm(
    chosen.flatMap((sized) => (sized === null ? [] : [sized.pick])),
    sweep,
  )
  const frontier = yield* frontierStudy(sizing, { wanted, runs })
  let next = 0
  return {
    ...answers,
    frontier,
    onPaper,
    confirmed: chosen.map((sized) => (sized === null ? null : fresh[next++])),
  }
}

/** The frontier alone, with less patience for designs on its very edge: there are so many of them. */
export function* frontierStudy(sizing: SizingSpace, { wanted, runs }: StudyChoices): Study<Frontier> {
  const sweep = runsForCleanSweep(wanted)
  const mostRuns = Math.max(Math.min(runs ?? Infinity, PATIENCE.frontier * sweep), sweep)
  return yield* frontierOf(sizing.space, sizing.frontier, new Evidence({ wanted, mostRuns }))
}
