/** Whether each of the file's aims holds: yes or no only where the interval says so. */
import { wilson } from '../numeric/wilson.ts'
import type { Aims } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import type { AimAnswer, Answer, Share } from './outlook.ts'
import { REPORT_BINS, REPORT_SPAN, type Tally } from './tally.ts'

/** The share of runs that must keep an aim for which the file names no share of winters. */
const USUAL_SHARE = 0.95

export function answerAims(aims: Aims, tally: Tally, winters: Share, scheduledPerDay: number): AimAnswer[] {
  const { counts, grids } = tally
  const wanted = aims.winters ?? USUAL_SHARE
  const answers: AimAnswer[] = []
  if (aims.winters !== null)
    answers.push(
      answer(`survive ${percent(aims.winters)} of winters`, winters, aims.winters, 'winters survived'),
    )
  if (aims.years !== null) {
    const day = Math.round(aims.years * DAYS)
    if (day >= grids.lifeByDay.length)
      answers.push({
        aim: `last ${aims.years} years`,
        holds: 'cannot tell',
        why: `only ${tally.years} years were played; ask for more with --years`,
      })
    else {
      let lived = 0
      for (let d = day; d < grids.lifeByDay.length; d++) lived += grids.lifeByDay[d]
      answers.push(
        answer(`last ${aims.years} years`, shareOf(lived, counts.runs), wanted, 'runs that last so long'),
      )
    }
  }
  if (aims.reportsPerDay !== null) {
    const least = Math.round((aims.reportsPerDay / scheduledPerDay / REPORT_SPAN) * REPORT_BINS)
    let kept = 0
    for (let bin = Math.max(least, 0); bin <= REPORT_BINS; bin++) kept += grids.reportRates[bin]
    if (scheduledPerDay === 0 || least > REPORT_BINS) kept = 0
    answers.push(
      answer(
        `${aims.reportsPerDay} reports a day`,
        shareOf(kept, counts.runs),
        wanted,
        'runs that make so many',
      ),
    )
  }
  if (aims.noBrownout)
    answers.push(answer('no brown-out', shareOf(counts.cleanRuns, counts.runs), wanted, 'runs without one'))
  return answers
}

const shareOf = (k: number, n: number): Share => ({ share: k / n, ...wilson(k, n) })

const percent = (share: number) => `${Number((100 * share).toPrecision(3))} %`

function answer(aim: string, found: Share, wanted: number, of: string): AimAnswer {
  const holds: Answer = found.low >= wanted ? 'yes' : found.high < wanted ? 'no' : 'cannot tell'
  const interval = `${percent(found.low)} to ${percent(found.high)}`
  return {
    aim,
    holds,
    why: `${of}: ${percent(found.share)} (95 % interval ${interval}), wanted ${percent(wanted)}`,
  }
}
