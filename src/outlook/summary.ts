/** From a tally to the outlook: quantiles, shares, worst weeks, aims, and the verdict. */
import type { Aims } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import { type AimContext, answerAims } from './aims.ts'
import { CAUSES } from './cause.ts'
import { binQuantile } from './grid-quantile.ts'
import type { BudgetPart, Outlook, StateBand } from './outlook.ts'
import {
  MARGIN_BINS,
  MARGIN_LOW_V,
  MARGIN_STEP_V,
  REPORT_BINS,
  REPORT_SPAN,
  STATE_BINS,
  type Tally,
} from './tally.ts'
import { verdictOf } from './verdict.ts'
import { wintersSurvived } from './winters.ts'

export interface Asked extends AimContext {
  readonly title: string
  readonly seed: number
  readonly aims: Aims
  readonly cutDay: number
  readonly budgetParts: readonly Pick<BudgetPart, 'name' | 'kind'>[]
}

const FORTNIGHT_DAYS = 14
const ROUNDING = 1e-12

export function summarise(tally: Tally, asked: Asked): Outlook {
  const { counts, grids, years } = tally
  const winters = wintersSurvived(counts)
  const byDay = bands(grids.stateByDay, DAYS).sort(
    (a, b) => sinceCut(a.at, asked.cutDay) - sinceCut(b.at, asked.cutDay),
  )
  const runs = counts.runs
  const perDay = (sum: number) => (counts.hours === 0 ? 0 : (sum / counts.hours) * 24)
  const told = {
    title: asked.title,
    seed: asked.seed,
    runs,
    years,
    rechargeable: asked.rechargeable,
    cutDay: asked.cutDay,
    winters,
    life: lives(tally),
    aliveAfterYears: Array.from({ length: years + 1 }, (_, year) => {
      let alive = 0
      for (let d = year * DAYS; d < grids.lifeByDay.length; d++) alive += grids.lifeByDay[d]
      return alive / runs
    }),
    lifeByMonth: livesByMonth(grids.lifeByDay),
    causes: causes(grids.firstDeathsByCause),
    deathsByDay: deathsByDay(grids.deathsByDay),
    byDay,
    byWeek: bands(grids.stateByWeek, grids.stateByWeek.length / (STATE_BINS + 1)),
    worstFortnight: worstFortnight(tally, byDay),
    downHoursPerYear: perDay(counts.downHours) * DAYS,
    reportsPerDay: {
      mean: perDay(counts.reports),
      p5: reportsQuantile(grids.reportRates, asked.scheduledReportsPerDay),
      missed: perDay(counts.missedReports),
    },
    margin_V: margin(grids.margins),
    budget: asked.budgetParts.map((part, i) => {
      const mean = grids.budget[i] / runs
      const variance = (grids.budgetSquared[i] / runs - mean * mean) * (runs > 1 ? runs / (runs - 1) : 0)
      // Of numbers that are all alike the sums leave rounding, no spread.
      return { ...part, charge_C: mean, u_C: variance > ROUNDING * mean * mean ? Math.sqrt(variance) : 0 }
    }),
    light_J_m2: means(grids.lightByDay, grids.daysByDay),
    air_C: means(grids.airByDay, grids.daysByDay),
    aims: answerAims(asked.aims, tally, asked),
    imbalance: tally.imbalance,
  }
  return { ...told, verdict: verdictOf(told) }
}

const sinceCut = (day: number, cut: number) => (day - cut + DAYS) % DAYS

const means = (sums: Float64Array, counts: Uint32Array) =>
  Array.from(sums, (sum, i) => (counts[i] === 0 ? 0 : sum / counts[i]))

function bands(grid: Uint32Array, rows: number): StateBand[] {
  const band: StateBand[] = []
  for (let at = 0; at < rows; at++) {
    const state = (p: number) => {
      const bin = binQuantile(grid, at * (STATE_BINS + 1), STATE_BINS + 1, p)
      return bin === null ? null : bin / STATE_BINS
    }
    const [p5, p25, p50, p75, p95] = [state(0.05), state(0.25), state(0.5), state(0.75), state(0.95)]
    if (p5 !== null && p25 !== null && p50 !== null && p75 !== null && p95 !== null)
      band.push({ at, p5, p25, p50, p75, p95 })
  }
  return band
}

function lives({ grids, years }: Tally) {
  const { lifeByDay } = grids
  const last = years * DAYS
  const quantile = (p: number) => {
    const day = binQuantile(lifeByDay, 0, lifeByDay.length, p)
    return day === null || day === last ? null : day
  }
  return {
    p5_days: quantile(0.05),
    median_days: quantile(0.5),
    p95_days: quantile(0.95),
    beyond: lifeByDay[last],
  }
}

/** Deaths by month since the start, twelve to a year; runs that outlive the outlook are left out. */
function livesByMonth(lifeByDay: Uint32Array): number[] {
  const days = lifeByDay.length - 1
  const months = new Array<number>(Math.ceil((days / DAYS) * 12)).fill(0)
  for (let d = 0; d < days; d++) months[Math.floor((d / DAYS) * 12)] += lifeByDay[d]
  return months
}

function causes(firstDeaths: Uint32Array) {
  const all = firstDeaths.reduce((a, b) => a + b, 0)
  return CAUSES.map((cause, i) => ({ cause, share: all === 0 ? 0 : firstDeaths[i] / all }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share)
}

function deathsByDay(grid: Uint32Array) {
  return CAUSES.flatMap((cause, i) =>
    Array.from({ length: DAYS }, (_, day) => ({ cause, day, deaths: grid[i * DAYS + day] })),
  ).filter(({ deaths }) => deaths > 0)
}

/** Most hours down; where it is never down, least charge in the poorest year of twenty; where nothing is ever short, least light. */
function worstFortnight({ grids }: Tally, byDay: readonly StateBand[]) {
  const state = new Array<number>(DAYS).fill(1)
  for (const { at, p5 } of byDay) state[at] = p5
  const over = (values: ArrayLike<number>, start: number) => {
    let sum = 0
    for (let i = 0; i < FORTNIGHT_DAYS; i++) sum += values[(start + i) % DAYS]
    return sum
  }
  const light = means(grids.lightByDay, grids.daysByDay)
  const fortnights = Array.from({ length: DAYS }, (_, startDay) => ({
    startDay,
    downHours: over(grids.downHoursByDay, startDay),
    p5State: over(state, startDay) / FORTNIGHT_DAYS,
    light: over(light, startDay),
  }))
  const isWorse = (a: (typeof fortnights)[0], b: (typeof fortnights)[0]) => {
    if (a.downHours !== b.downHours) return a.downHours > b.downHours
    const less = b.p5State - a.p5State
    return Math.abs(less) > ROUNDING ? less > 0 : a.light < b.light
  }
  const { startDay, downHours, p5State } = fortnights.reduce((worst, each) =>
    isWorse(each, worst) ? each : worst,
  )
  const days = grids.daysByDay[startDay]
  return { startDay, downHours: days === 0 ? 0 : downHours / days, p5State }
}

function reportsQuantile(rates: Uint32Array, scheduledPerDay: number): number | null {
  const bin = binQuantile(rates, 0, rates.length, 0.05)
  return bin === null ? null : (bin / REPORT_BINS) * REPORT_SPAN * scheduledPerDay
}

function margin(margins: Uint32Array) {
  const volts = (p: number) => {
    const bin = binQuantile(margins, 0, MARGIN_BINS + 1, p)
    return bin === null ? null : MARGIN_LOW_V + bin * MARGIN_STEP_V
  }
  const p5 = volts(0.05)
  const median = volts(0.5)
  return p5 === null || median === null ? null : { p5, median }
}
