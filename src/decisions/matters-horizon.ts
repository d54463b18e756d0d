/** How long the futures of a design without a panel are followed: well beyond the life of the design at its best. */
import { compilePlan } from '../outlook/compile.ts'
import { atBest } from '../outlook/draw.ts'
import { type Ensemble, flashLife_days, wakesOf } from '../outlook/ensemble.ts'
import { dailyFromMonthly } from '../sky/annual-cycle.ts'
import { DAYS } from '../sky/calendar.ts'
import { lifeOf } from './matters-play.ts'

const LONGEST_YEARS = 60
/** A life so many times the best value's is rare where tolerances are of the usual size. */
const BEYOND_BEST = 2.5

/** Whole years to follow, `asked` where it is given, and the life at the file's best values under mean air, in years. */
export function mattersHorizon_years(
  ensemble: Ensemble,
  asked: number | null,
): { years: number; life_years: number } {
  const { outpost, stepsPerHour, cutDay } = ensemble
  const design = atBest(outpost)
  const rows = wakesOf(design.wake, design.place, ensemble)
  const mean_C = dailyFromMonthly(outpost.place.climate.temperature_C)
  const sky = {
    stepsPerHour,
    start() {},
    day(day: number, light: Float64Array, air: Float64Array) {
      light.fill(0)
      air.fill(mean_C[day])
    },
  }
  const life_days = lifeOf(compilePlan(design, rows, 3600 / stepsPerHour), sky, {
    years: asked ?? LONGEST_YEARS,
    cutDay,
    flashLife_days: flashLife_days(design.wake, rows[0].wakesPerDay),
  })
  const life_years = life_days / DAYS
  const years = asked ?? Math.min(Math.ceil(BEYOND_BEST * life_years), LONGEST_YEARS)
  return { years, life_years }
}
