/** What the cadence promises of reports: how far tolerances spread them, and how many of them fail for good. */
import { atBest, drawn, probabilitiesOf } from '../outlook/draw.ts'
import { type Ensemble, timesFor } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { momentsOf } from '../wake/moments.ts'
import type { Step, Wake } from '../wake/wake.ts'

/** They settle a standard deviation to a fifth, which is enough to choose digits by. */
const DRAWS = 16
const STEP_s = 3600

export interface ExpectedReports {
  /** Standard deviation of reports a day from draw to draw, as a share of their mean; 0 where there are none. */
  readonly spread: number
  /** Share, 0..1, of the reports tried that are lost because every try fails, in their step or in one before it; at best values. */
  readonly inVain: number
}

/** Run k draws what run k of a forecast with the same seed draws. */
export function expectedReports(
  outpost: Outpost,
  seed: number,
  { calendarYear }: Pick<Ensemble, 'calendarYear'>,
): ExpectedReports {
  const times_s = timesFor(outpost.wake, outpost.place.zone_h, calendarYear)
  const perDay = Array.from({ length: DRAWS }, (_, run) => {
    const { wake } = drawn(outpost, probabilitiesOf(seed, run))
    return expectedWakes(wake, times_s, STEP_s)[0].reportsPerDay
  })
  const mean = perDay.reduce((sum, each) => sum + each, 0) / DRAWS
  const variance = perDay.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (DRAWS - 1)
  const { wake } = atBest(outpost)
  const tried = momentsOf(withoutFailures(wake)).reports
  return {
    spread: mean > 0 ? Math.sqrt(variance) / mean : 0,
    inVain: tried > 0 ? Math.max(0, 1 - momentsOf(wake).reports / tried) : 0,
  }
}

function withoutFailures(wake: Wake<number>): Wake<number> {
  const sure = (step: Step<number>) => ({ ...step, retries: null })
  return { ...wake, boot: wake.boot.map(sure), steps: wake.steps.map(sure) }
}
