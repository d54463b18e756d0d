/** How long a daily series stays on one side of its mean, estimated from the months of one year. */
import { brent } from '../numeric/root.ts'
import { DAYS, MONTH_OF_DAY } from './calendar.ts'

const DAYS_PER_MONTH = 30
const LAG_ONE_BOUNDS = [-0.5, 0.9] as const

/** Lag-one and spread of a daily series about its mean, freed of the bias of short months. */
interface Persistence {
  readonly lagOne: number
  readonly deviation: number
}

/** Share of a series' variance that the mean of a 30-day month takes with it, where its lag-one is `r` (AR(1)). */
function shareOfMonthMean(r: number): number {
  const n = DAYS_PER_MONTH
  return ((1 + r) / (1 - r) - (2 * r * (1 - r ** n)) / (n * (1 - r) ** 2)) / n
}

/**
 * Only neighbours within a month are paired, as typical years are stitched from months of different years. Taking the
 * mean from the same 30 days lowers variance and lag-one covariance alike by the share v(r) that the mean holds, so that
 * the estimate found is (r − v)/(1 − v); r is solved from that.
 */
export function persistenceOf(deviations: ArrayLike<number>, use: (day: number) => boolean): Persistence {
  let products = 0
  let pairs = 0
  let squares = 0
  let count = 0
  for (let day = 0; day < DAYS; day++) {
    if (!use(day)) continue
    squares += deviations[day] ** 2
    count++
    if (day === 0 || !use(day - 1) || MONTH_OF_DAY[day] !== MONTH_OF_DAY[day - 1]) continue
    products += deviations[day] * deviations[day - 1]
    pairs++
  }
  if (pairs === 0 || squares === 0) return { lagOne: 0, deviation: 0 }
  const found = products / pairs / (squares / count)
  const [low, high] = LAG_ONE_BOUNDS
  const excess = (r: number): number => (r - shareOfMonthMean(r)) / (1 - shareOfMonthMean(r)) - found
  const lagOne = excess(low) >= 0 ? low : excess(high) <= 0 ? high : brent(excess, low, high, 1e-6)
  return { lagOne, deviation: Math.sqrt(squares / count / (1 - shareOfMonthMean(lagOne))) }
}
