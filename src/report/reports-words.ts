/** Reports a day, as a forecast counts them: with the digits that are known, and what counts as missed or lost. */
import { formatQuantity } from '../quantity/format.ts'
import type { Forecast } from './forecast.ts'

/** Three digits stand where the mean is known (95 %) to half a unit of the third, in its worst case of 1.00. */
const HALF_UNIT = 0.005
/** Of a normal law, from its mean down to its fifth percentile. */
const DEVIATIONS_TO_P5 = 1.645
/** Less than this share is lost in the rounding of what was made. */
const LEAST_IN_VAIN = 5e-5

export function reportsInWords({ outlook, reports }: Pick<Forecast, 'outlook' | 'reports'>): string {
  const { reportsPerDay, rechargeable } = outlook
  const made = inDigits(reportsPerDay.mean, meanIsKnown(outlook, reports) ? 3 : 2)
  const inVain =
    reports.inVain < LEAST_IN_VAIN
      ? ''
      : `; ${formatQuantity(reports.inVain, 'ratio', { digits: 2 })} of those tried are lost, every try in vain`
  // A cell that is not charged is counted until its first death, so that nothing can be missed while it is down.
  return rechargeable
    ? `${made} made, ${missedInWords(reportsPerDay.missed)} missed while it is down${inVain}`
    : `${made} made while it lives${inVain}`
}

function meanIsKnown(
  { reportsPerDay, rechargeable, runs }: Forecast['outlook'],
  reports: Forecast['reports'],
) {
  const { mean, p5 } = reportsPerDay
  // With a panel, runs differ by their weather too.
  const byWeather = rechargeable && p5 !== null && mean > 0 ? (mean - p5) / DEVIATIONS_TO_P5 / mean : 0
  return 2 * Math.max(reports.spread, byWeather) <= HALF_UNIT * Math.sqrt(runs)
}

const inDigits = (x: number, digits: number) => String(Number(x.toPrecision(digits)))

const missedInWords = (x: number) => (x > 0 && x < 0.05 ? '< 0.1' : inDigits(x, 2))
