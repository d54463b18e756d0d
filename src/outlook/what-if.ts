/**
 * The outlook in a tenth of a second, while a design is being written: the very engine in longer steps, run by run, so
 * that it can be looked at or left off after any of them. With a panel each run is one winter out of the years that the
 * full outlook plays; without one each is a whole life. How far it is off: docs/models/what-if.md.
 */
import { stream } from '../numeric/random.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { momentsOf } from '../wake/moments.ts'
import { addBudget, dayBudget_C } from './budget.ts'
import { compilePlan, type PanelTabler } from './compile.ts'
import { drawn, probabilitiesOf } from './draw.ts'
import { ensembleOf, flashLife_days, judgedDays, timesFor, WEATHER_STREAM } from './ensemble.ts'
import type { Outlook } from './outlook.ts'
import { playRun } from './run.ts'
import { summarise } from './summary.ts'
import { emptyTally } from './tally.ts'
import { lifePace } from './what-if-life.ts'
import type { WhatIfMemory } from './what-if-memory.ts'
import type { WhatIfChoices } from './what-if-pace.ts'
import { winterPace } from './what-if-winter.ts'

export interface WhatIf {
  readonly runs: number
  readonly played: number
  /** Plays so many more runs, but no more than are left. */
  play(runs: number): void
  /** Of the runs played so far; at least one. */
  outlook(): Outlook
}

/** Of a plan's costly tables one node in so many is worked out. */
const SPACING = 8

/**
 * A what-if of `outpost`. The same seed gives the same outlook, however the runs are portioned and whatever `memory`
 * holds. RangeError on an unsound design.
 */
export function whatIf(outpost: Outpost, choices: WhatIfChoices, memory: WhatIfMemory): WhatIf {
  const { seed, runs, cutDay, calendarYear, title } = choices
  const { supply, place, aims } = outpost
  const rechargeable = supply.panel !== null && supply.charger !== null
  const pace = (rechargeable ? winterPace : lifePace)(outpost, choices, memory)
  const { years, stepsPerHour } = pace
  const ensemble = ensembleOf(outpost, { years, runs, seed, stepsPerHour, cutDay, calendarYear })
  const step_s = 3600 / stepsPerHour
  const times = timesFor(outpost.wake, place.zone_h, calendarYear)
  const tabler: PanelTabler = (...given) => memory.table(...given)
  const tally = emptyTally(years, ensemble.budgetParts.length)

  const playOne = (run: number) => {
    const design = drawn(outpost, probabilitiesOf(seed, run))
    const rows = expectedWakes(design.wake, times, step_s)
    const plan = compilePlan(design, rows, step_s, tabler, SPACING)
    const { wakesPerDay } = rows[0]
    const flash = flashLife_days(design.wake, wakesPerDay)
    const paced = pace.walk({ run, design, rows, plan, flashLife_days: flash })
    const settings = {
      years,
      cutDay,
      reportsPerWake: momentsOf(design.wake).reports,
      scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
      flashLife_days: paced.flashLife_days,
      isJudged: paced.isJudged,
      judgedDays: judgedDays(aims, years),
      endsWhenDown: plan.charging === null,
    }
    playRun(paced.walk, stream(seed, run, WEATHER_STREAM), settings, tally)
    addBudget(tally, dayBudget_C(design, wakesPerDay))
  }

  let played = 0
  return {
    runs,
    get played() {
      return played
    },
    play(more) {
      const end = Math.min(played + more, runs)
      while (played < end) playOne(played++)
    },
    outlook: () =>
      summarise(tally, {
        title,
        seed,
        aims,
        rechargeable,
        cutDay,
        scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
        budgetParts: ensemble.budgetParts,
        ...pace.bounds(tally),
      }),
  }
}
