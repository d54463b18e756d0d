/**
 * Many designs through the same futures: run k draws one device and one path of the weather, and every design that is
 * asked for meets exactly those (common random numbers). The weather of a run is made once and replayed; a cell is
 * compiled once a run, for all panels and intervals that go with it.
 */
import { stream } from '../numeric/random.ts'
import { compilePlan, type PanelTabler, tablePanel } from '../outlook/compile.ts'
import { drawn, probabilitiesOf } from '../outlook/draw.ts'
import { flashLife_days, WEATHER_STREAM, wakesOf } from '../outlook/ensemble.ts'
import type { Plan } from '../outlook/plan.ts'
import { onGround, planeOf } from '../outlook/plane.ts'
import { drawnSky } from '../outlook/sky-source.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { prepareGenerator } from '../sky/generator.ts'
import type { Pack, Panel } from '../supply/supply.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import { playWinters } from './play-winters.ts'
import { remember } from './remember.ts'
import { withInterval } from './sizing-axes.ts'

/** A panel, or so many times one: a larger piece of the same glass gives more current at the same voltage. */
export interface SizedPanel {
  readonly panel: Panel
  readonly times: number
}

/** The designs that may be asked for: an outpost, and what may stand in place of its cell, panel and interval. */
export interface DesignSpace {
  readonly outpost: Outpost
  readonly packs: readonly Pack[]
  /** Holds `null` alone for an outpost without a panel. */
  readonly panels: readonly (SizedPanel | null)[]
  /** Null: as the outpost has it. */
  readonly intervals_s: readonly (number | null)[]
  /** Whole winters with a panel; without one the life that is aimed at, perhaps with a fraction. */
  readonly years: number
  readonly seed: number
  readonly stepsPerHour: number
  /** Day of the year on which each winter year begins. */
  readonly cutDay: number
  readonly calendarYear: number
}

/** One design, by its places in the space. */
export interface Picked {
  readonly pack: number
  readonly panel: number
  readonly interval: number
}

/** Runs `from` to `to` (not included) of some designs. */
export interface Asked {
  readonly picks: readonly Picked[]
  readonly from: number
  readonly to: number
}

/** How runs ended. Without a panel each run counts as one winter: the life that is aimed at. */
export interface Survived {
  readonly runs: number
  readonly winters: number
  readonly survived: number
}

/** Whether light can put anything into the cell: then winters are counted, otherwise whole lives. */
export const isRechargeable = ({ supply }: Pick<Outpost, 'supply'>): boolean =>
  supply.panel !== null && supply.charger !== null

/**
 * Plays runs of designs of this space: the counts are in the order of the picks, and are sums of whole numbers. What does
 * not change from run to run is worked out once and kept.
 */
export function playerOf(space: DesignSpace): (asked: Asked) => Survived[] {
  const { outpost, years, seed, stepsPerHour, cutDay } = space
  const shapes = dayShapes(outpost.place, stepsPerHour)
  const generator = prepareGenerator(outpost.place.climate)
  const days = Math.round(years * DAYS)
  const perDay = 24 * stepsPerHour
  const light = new Float64Array(days * perDay)
  const air = new Float64Array(days * perDay)
  const plane = remember(planeOf, ({ tilt_deg, azimuth_deg }) => `${tilt_deg} ${azimuth_deg}`, PLANES_KEPT)
  const tabler = remember(tablePanel, (...given) => JSON.stringify(given))
  const planOf = planner(space, tabler)
  const rechargeable = isRechargeable(outpost)
  return ({ picks, from, to }) => {
    const counts = picks.map(() => NONE)
    for (let run = from; run < to; run++) {
      makeWeather(run)
      for (const [i, pick] of picks.entries()) {
        const { plan, lasts_days } = planOf(run, pick)
        const played = playWinters(plan, { light, air, perDay, cutDay, flashLife_days: lasts_days })
        const { winters, survived } = rechargeable
          ? played
          : { winters: 1, survived: played.neverDown ? 1 : 0 }
        counts[i] = together(counts[i], { runs: 1, winters, survived })
      }
    }
    return counts
  }

  function makeWeather(run: number): void {
    const { place } = drawn(outpost, probabilitiesOf(seed, run))
    const sky = drawnSky(generator, shapes, onGround(plane(place, shapes), place))
    sky.start(stream(seed, run, WEATHER_STREAM))
    for (let day = 0; day < days; day++) {
      const steps = [day * perDay, (day + 1) * perDay] as const
      sky.day((cutDay + day) % DAYS, light.subarray(...steps), air.subarray(...steps))
    }
  }
}

/** A plane is drawn anew in each run, and every run comes up again for other designs; it takes a fifth of a megabyte. */
const PLANES_KEPT = 200
/** Enough for the frontier's cells through all runs of a first look that may pass; a plan is some ten kilobytes. */
const PLANS_KEPT = 2000

/** Plans of designs, each cell compiled once a run for every panel of one kind and every interval. */
function planner(space: DesignSpace, tabler: PanelTabler) {
  const { outpost, seed } = space
  const step_s = 3600 / space.stepsPerHour
  const kinds = [...new Set(space.panels.map((sized) => sized?.panel ?? null))]

  const schedule = remember(
    (run: number, interval: number) => {
      const scheduled = withInterval(outpost, space.intervals_s[interval])
      const { wake, place } = drawn(scheduled, probabilitiesOf(seed, run))
      const rows = wakesOf(wake, place, space)
      return { rows, lasts_days: flashLife_days(wake, rows[0].wakesPerDay) }
    },
    (run, interval) => `${run} ${interval}`,
    PLANS_KEPT,
  )
  const compiled = remember(
    (run: number, pack: number, kind: number, rows: readonly ExpectedWakes[]) => {
      const supply = { ...outpost.supply, pack: space.packs[pack], panel: kinds[kind] }
      return compilePlan(drawn({ ...outpost, supply }, probabilitiesOf(seed, run)), rows, step_s, tabler)
    },
    (run, pack, kind) => `${run} ${pack} ${kind}`,
    PLANS_KEPT,
  )

  return (run: number, { pack, panel, interval }: Picked): { plan: Plan; lasts_days: number } => {
    const { rows, lasts_days } = schedule(run, interval)
    const sized = space.panels[panel]
    const plan = compiled(run, pack, kinds.indexOf(sized?.panel ?? null), rows)
    const { charging } = plan
    // What the panel gives is proportional to its size at any voltage, so the table of one serves all.
    const converter = (charging?.converter ?? 1) * (sized?.times ?? 1)
    return { plan: { ...plan, rows, charging: charging && { ...charging, converter } }, lasts_days }
  }
}

export const NONE: Survived = { runs: 0, winters: 0, survived: 0 }

/** The counts of both. */
export const together = (a: Survived, b: Survived): Survived => ({
  runs: a.runs + b.runs,
  winters: a.winters + b.winters,
  survived: a.survived + b.survived,
})
