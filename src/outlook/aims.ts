/** Whether each of the file's aims holds: yes or no only where the interval says so. */
import { wilson } from '../numeric/wilson.ts'
import type { Aims } from '../outpost/outpost.ts'
import { counted } from '../quantity/counted.ts'
import { judgedDays } from './ensemble.ts'
import type { AimAnswer, Answer, Share } from './outlook.ts'
import { REPORT_BINS, REPORT_SPAN, type Tally } from './tally.ts'
import { wintersSurvived } from './winters.ts'

/** The share of runs that must keep an aim for which the file names no share of winters. */
const USUAL_SHARE = 0.95

export function answerAims(aims: Aims, tally: Tally, asked: AimContext): AimAnswer[] {
  const { grids } = tally
  const wanted = aims.winters ?? USUAL_SHARE
  const runs = tally.counts.runs
  const judged = judgedDays(aims, tally.years)
  const answers: AimAnswer[] = []
  if (aims.winters !== null) {
    const span = aims.years === null ? '' : ` for ${counted(aims.years, 'year')}`
    const aim = `survive ${percent(aims.winters)} of winters${span}`
    answers.push(answer(aim, judgedWinters(tally), aims.winters, 'winters survived'))
  }
  if (aims.years !== null) {
    // With a panel a dark winter is the other aim's matter: the cell has failed when it is worn out.
    const [byDay, of] = asked.rechargeable
      ? [grids.wornByDay, 'runs in which nothing is worn out by then']
      : [grids.lifeByDay, 'runs that last so long']
    const howLong = counted(aims.years, 'year')
    const aim = asked.rechargeable ? `no worn-out cell for ${howLong}` : `last ${howLong}`
    answers.push(
      asked.bounds !== undefined
        ? bounded(aim, asked.bounds.notWorn, runs, wanted, of)
        : aims.years > tally.years
          ? {
              aim,
              holds: 'cannot tell',
              why: `only ${counted(tally.years, 'year')} ${tally.years === 1 ? 'was' : 'were'} played: ask for more with --years`,
            }
          : answer(aim, shareOf(from(byDay, judged), runs), wanted, of),
    )
  }
  if (aims.reportsPerDay !== null) {
    const least = Math.floor((aims.reportsPerDay / asked.scheduledReportsPerDay / REPORT_SPAN) * REPORT_BINS)
    const kept = asked.scheduledReportsPerDay > 0 ? from(grids.reportRates, least) : 0
    answers.push(
      answer(
        `${counted(aims.reportsPerDay, 'report')} a day`,
        shareOf(kept, runs),
        wanted,
        'runs that make so many',
      ),
    )
  }
  if (aims.noBrownout)
    answers.push(
      asked.bounds !== undefined
        ? bounded('no brown-out', asked.bounds.neverDown, runs, wanted, 'runs without one')
        : answer('no brown-out', shareOf(from(grids.lifeByDay, judged), runs), wanted, 'runs without one'),
    )
  return answers
}

/** Over the years that are aimed at; over all where these hold no whole winter. */
function judgedWinters({ counts }: Tally): Share {
  if (counts.judgedWinters === 0) return wintersSurvived(counts)
  return wintersSurvived({
    runs: counts.runs,
    winters: counts.judgedWinters,
    survived: counts.judgedSurvived,
    survivedSquared: counts.judgedSurvivedSquared,
    survivedWinters: counts.judgedSurvivedWinters,
    wintersSquared: counts.judgedWintersSquared,
  })
}

export interface AimContext {
  readonly rechargeable: boolean
  readonly scheduledReportsPerDay: number
  /** Where runs are too short to see whether an aim of years is kept: what they do tell. */
  readonly bounds?: { readonly notWorn: RunBounds; readonly neverDown: RunBounds }
}

/** In so many runs an aim is surely kept; in so many it may be. */
export interface RunBounds {
  readonly least: number
  readonly most: number
}

/** How many were counted at `first` or beyond. */
function from(counts: Uint32Array, first: number): number {
  let sum = 0
  for (let i = Math.max(first, 0); i < counts.length; i++) sum += counts[i]
  return sum
}

const shareOf = (k: number, n: number): Share => ({ share: k / n, ...wilson(k, n) })

const percent = (share: number) => `${Number((100 * share).toPrecision(3))} %`

function bounded(
  aim: string,
  { least, most }: RunBounds,
  runs: number,
  wanted: number,
  of: string,
): AimAnswer {
  const holds: Answer =
    wilson(least, runs).low >= wanted ? 'yes' : wilson(most, runs).high < wanted ? 'no' : 'cannot tell'
  const between =
    least === most ? percent(least / runs) : `between ${percent(least / runs)} and ${percent(most / runs)}`
  return { aim, holds, why: `${of}: ${between}, as far as short runs tell, wanted ${percent(wanted)}` }
}

function answer(aim: string, found: Share, wanted: number, of: string): AimAnswer {
  const holds: Answer = found.low >= wanted ? 'yes' : found.high < wanted ? 'no' : 'cannot tell'
  const interval = `${percent(found.low)} to ${percent(found.high)}`
  return {
    aim,
    holds,
    why: `${of}: ${percent(found.share)} (95 % interval ${interval}), wanted ${percent(wanted)}`,
  }
}
