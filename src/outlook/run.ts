/** One run: a drawn design under one path of the weather, day by day for years, tallied. */
import type { Stream } from '../numeric/random.ts'
import { DAYS } from '../sky/calendar.ts'
import { CAUSES, causeOf } from './cause.ts'
import { imbalance_C, initialState } from './state.ts'
import {
  DAYS_PER_WEEK,
  MARGIN_BINS,
  MARGIN_LOW_V,
  MARGIN_STEP_V,
  REPORT_BINS,
  REPORT_SPAN,
  STATE_BINS,
  type Tally,
} from './tally.ts'
import type { Walk } from './walk.ts'

export interface RunSettings {
  readonly years: number
  /** Day of the year on which every winter year begins, 0..364. */
  readonly cutDay: number
  /** Reports that one wake is expected to deliver. */
  readonly reportsPerWake: number
  readonly scheduledReportsPerDay: number
  /** After so many days the flash is worn out; Infinity where none wears. */
  readonly flashLife_days: number
  /** The aims are judged over so many days from the start. */
  readonly judgedDays: number
  /** Its winters are among those over which the aims are judged, as far as they lie within these days. */
  readonly isJudged: boolean
  /** The run ends with the winter year in which it is down at the end: nothing will bring it back. */
  readonly endsWhenDown: boolean
}

/** What one run comes to, for comparing run by run. */
export interface RunOutcome {
  readonly winters: number
  readonly survived: number
  /** Day of the first death, or the days played. */
  readonly life_days: number
  readonly reportsPerDay: number
}

/** Plays the plan of `walk` under its sky and adds what happens to `tally`. */
export function playRun(walk: Walk, stream: Stream, settings: RunSettings, tally: Tally): RunOutcome {
  const { counts, grids } = tally
  const { plan } = walk
  const state = initialState(plan)
  const lastDay = settings.years * DAYS
  let life = lastDay
  let worn = lastDay
  let wakesJudged = 0
  let marginJudged = Infinity
  /** How things stood last, or, for a cell that is not charged, before its first death: after that it only flickers. */
  let lived = { day: 0, wakes: 0, missedWakes: 0, downHours: 0 }
  let winters = 0
  let survived = 0
  let judgedWinters = 0
  let judgedSurvived = 0
  let downHours = 0
  let yearBegan = 0
  let weekLowest = 1
  let day = 0
  walk.start(stream)
  while (day < lastDay) {
    const ofYear = (settings.cutDay + day) % DAYS
    if (day >= settings.flashLife_days) {
      life = Math.min(life, day)
      if (life === day) grids.firstDeathsByCause[CAUSES.indexOf('flash worn out')]++
      grids.deathsByDay[CAUSES.indexOf('flash worn out') * DAYS + ofYear]++
      worn = Math.min(worn, day)
      // Nothing works any more: all that was still to come is lost.
      winters += Math.ceil((lastDay - day) / DAYS)
      if (settings.isJudged) judgedWinters += Math.ceil(Math.max(settings.judgedDays - day, 0) / DAYS)
      if (!settings.endsWhenDown) lived = lostFrom(day)
      break
    }
    state.lowestState = 1
    const deathsBefore = state.deaths
    const days = walk.stride(day, ofYear, state)

    for (let d = 0; d < days; d++) {
      const of = (ofYear + d) % DAYS
      grids.stateByDay[of * (STATE_BINS + 1) + Math.round(state.lowestState * STATE_BINS)]++
      weekLowest = Math.min(weekLowest, state.lowestState)
      if ((day + d) % DAYS_PER_WEEK === DAYS_PER_WEEK - 1) {
        const week = (day + d - DAYS_PER_WEEK + 1) / DAYS_PER_WEEK
        grids.stateByWeek[week * (STATE_BINS + 1) + Math.round(weekLowest * STATE_BINS)]++
        weekLowest = 1
      }
      grids.lightByDay[of] += walk.light_J_m2
      grids.airByDay[of] += walk.air_C
      grids.daysByDay[of]++
      grids.downHoursByDay[of] += walk.downHours / days
    }
    downHours += walk.downHours
    if (state.deaths > deathsBefore) {
      const cause = CAUSES.indexOf(causeOf(plan, state.fall))
      const fell = day + walk.fell_days
      if (CAUSES[cause] === 'too old') worn = Math.min(worn, fell)
      grids.deathsByDay[cause * DAYS + ((ofYear + walk.fell_days) % DAYS)] += state.deaths - deathsBefore
      if (life === lastDay) {
        life = fell
        grids.firstDeathsByCause[cause]++
      }
    }
    day += days
    if (day <= settings.judgedDays) {
      wakesJudged = state.wakes
      marginJudged = state.margin_V
    }
    if (!settings.endsWhenDown || life === lastDay) {
      const { wakes, missedWakes } = state
      lived = { day, wakes, missedWakes, downHours }
    }
    if (day % DAYS === 0) {
      const wasUp = downHours === yearBegan ? 1 : 0
      winters++
      survived += wasUp
      if (settings.isJudged && day <= settings.judgedDays) {
        judgedWinters++
        judgedSurvived += wasUp
      }
      yearBegan = downHours
      if (settings.endsWhenDown && state.down) break
    }
  }
  grids.lifeByDay[life]++
  grids.wornByDay[worn]++
  counts.runs++
  counts.winters += winters
  counts.survived += survived
  counts.survivedSquared += survived * survived
  counts.survivedWinters += survived * winters
  counts.wintersSquared += winters * winters
  counts.judgedWinters += judgedWinters
  counts.judgedSurvived += judgedSurvived
  counts.judgedSurvivedSquared += judgedSurvived * judgedSurvived
  counts.judgedSurvivedWinters += judgedSurvived * judgedWinters
  counts.judgedWintersSquared += judgedWinters * judgedWinters
  counts.reports += lived.wakes * settings.reportsPerWake
  counts.missedReports += lived.missedWakes * settings.reportsPerWake
  counts.hours += lived.day * 24
  counts.downHours += lived.downHours
  if (settings.scheduledReportsPerDay > 0) {
    // Days after a death count too: what was not reported then is missing.
    const perDay = (wakesJudged * settings.reportsPerWake) / settings.judgedDays
    const bin = Math.round((perDay / settings.scheduledReportsPerDay / REPORT_SPAN) * REPORT_BINS)
    grids.reportRates[Math.min(bin, REPORT_BINS)]++
  }
  if (Number.isFinite(marginJudged)) {
    const bin = Math.round((marginJudged - MARGIN_LOW_V) / MARGIN_STEP_V)
    grids.margins[Math.min(Math.max(bin, 0), MARGIN_BINS)]++
  }
  const moved = plan.initialCharge_C + state.in_C + state.out_C
  tally.imbalance = Math.max(tally.imbalance, Math.abs(imbalance_C(plan, state)) / moved)
  return { winters, survived, life_days: life, reportsPerDay: (state.wakes * settings.reportsPerWake) / day }

  /** What was lived until `day`, and from then on nothing but missed wakes. */
  function lostFrom(day: number) {
    const { reportsPerWake, scheduledReportsPerDay } = settings
    const left = lastDay - day
    const missed = reportsPerWake > 0 ? (left * scheduledReportsPerDay) / reportsPerWake : 0
    const { wakes, missedWakes } = state
    return { day: lastDay, wakes, missedWakes: missedWakes + missed, downHours: downHours + 24 * left }
  }
}
