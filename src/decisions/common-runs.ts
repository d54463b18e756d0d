/**
 * Many designs through the same futures: run k draws one device and one path of the weather, and every design that is
 * asked for meets exactly those (common random numbers). The weather of a run is made once and replayed; a cell is
 * compiled once a run, for all panels and intervals that go with it.
 */
import { compilePlan, tablePanel } from '../outlook/compile.ts'
import { drawn, probabilitiesOf } from '../outlook/draw.ts'
import { flashLife_days, wakesOf } from '../outlook/ensemble.ts'
import { inOneShape, type Plan } from '../outlook/plan.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { Pack, Panel } from '../supply/supply.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import { playWinters, type WintersPlayed } from './play-winters.ts'
import { remember } from './remember.ts'
import { weatherOf } from './run-weather.ts'
import { withInterval } from './sizing-axes.ts'
import { isSteady, onlySaves, type Strain, SureSurvival } from './sure-survival.ts'

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
  /** Only every so many-th of them: one thread's part. All of them where it is left out. */
  readonly by?: number
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
 * not change from run to run is worked out once and kept, and a run that is sure to survive is not played.
 */
export function playerOf(space: DesignSpace): (asked: Asked) => Survived[] {
  const { outpost, years, stepsPerHour, cutDay } = space
  const perDay = 24 * stepsPerHour
  const rechargeable = isRechargeable(outpost)
  const weatherIn = weatherOf(space)
  const { strainOf, planOf } = planner(space)
  const sure = new SureSurvival()
  return ({ picks, from, to, by = 1 }) => {
    const counts = picks.map(() => NONE)
    for (let run = from; run < to; run += by)
      for (const [i, pick] of picks.entries()) counts[i] = together(counts[i], play(run, pick))
    return counts
  }

  function play(run: number, pick: Picked): Survived {
    const strain = strainOf(run, pick)
    const saves = onlySaves(strain.rows)
    const known = sure.of(run, pick.pack, strain)
    if (saves && known === 'survives') return countOf({ winters: years, survived: years, neverDown: true })
    const plan = planOf(run, pick, strain.rows)
    const endsWhenDown = plan.charging === null
    const weather = { ...weatherIn(run), perDay, cutDay, flashLife_days: strain.lasts_days, endsWhenDown }
    const slowsDown = plan.rows.length > 1
    if (known === 'unknown' && saves && isSteady(plan)) {
      const own = planOf(run, pick, strain.rows.slice(0, 1))
      const played = playWinters(own, { ...weather, endsWhenDown: endsWhenDown || slowsDown })
      sure.learn(run, pick.pack, strain, played.neverDown)
      if (played.neverDown || !slowsDown) return countOf(played)
    }
    return countOf(playWinters(plan, weather))
  }

  function countOf({ winters, survived, neverDown }: WintersPlayed): Survived {
    return rechargeable
      ? { runs: 1, winters, survived }
      : { runs: 1, winters: 1, survived: neverDown ? 1 : 0 }
  }
}

/** Enough for the frontier's cells through all runs of a first look that may pass; a plan is some ten kilobytes. */
const PLANS_KEPT = 2000

/** Plans of designs, each cell compiled once a run for every panel of one kind and every interval. */
function planner(space: DesignSpace) {
  const { outpost, seed } = space
  const step_s = 3600 / space.stepsPerHour
  const kinds = [...new Set(space.panels.map((sized) => sized?.panel ?? null))]
  const tabler = remember(tablePanel, (...given) => JSON.stringify(given))

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

  return {
    strainOf(run: number, { panel, interval }: Picked): Strain {
      const sized = space.panels[panel]
      return {
        ...schedule(run, interval),
        kind: kinds.indexOf(sized?.panel ?? null),
        times: sized?.times ?? 1,
      }
    },
    planOf(run: number, { pack, panel, interval }: Picked, rows: readonly ExpectedWakes[]): Plan {
      const sized = space.panels[panel]
      const plan = compiled(run, pack, kinds.indexOf(sized?.panel ?? null), schedule(run, interval).rows)
      const { charging } = plan
      // What the panel gives is proportional to its size at any voltage, so the table of one serves all.
      const converter = (charging?.converter ?? 1) * (sized?.times ?? 1)
      return inOneShape({ ...plan, rows, charging: charging && { ...charging, converter } })
    },
  }
}

export const NONE: Survived = { runs: 0, winters: 0, survived: 0 }

/** The counts of both. */
export const together = (a: Survived, b: Survived): Survived => ({
  runs: a.runs + b.runs,
  winters: a.winters + b.winters,
  survived: a.survived + b.survived,
})
