/**
 * Single winters of a device that is charged: run k plays one of the years that the full outlook plays, by turns, with
 * the cell as old and as full as the years before leave it.
 */
import type { Outpost } from '../outpost/outpost.ts'
import { DAYS } from '../sky/calendar.ts'
import { dayBudget_C } from './budget.ts'
import { END_OF_LIFE } from './cause.ts'
import { atBest } from './draw.ts'
import { wakesOf } from './ensemble.ts'
import type { WhatIfMemory } from './what-if-memory.ts'
import type { Drawn, Pace, WhatIfChoices } from './what-if-pace.ts'
import { yearsBefore } from './what-if-winter-start.ts'
import { atAnyWarmth, WinterWalk } from './what-if-winter-walk.ts'

/** The fractional part of its multiples fills 0..1 evenly, however many there are (Weyl 1916). */
const GOLDEN = (Math.sqrt(5) - 1) / 2
/** Of a cell that no light charges. */
const ANY_WARMTH = { low_C: -Infinity, high_C: Infinity }

export function winterPace(outpost: Outpost, choices: WhatIfChoices, memory: WhatIfMemory): Pace {
  const { years, seed, cutDay, calendarYear } = choices
  const { aims, place, supply } = outpost
  const patience_days = patienceOf(outpost, calendarYear)
  const stepHours = patience_days > PATIENCE_DAYS ? STEP_HOURS.patient : STEP_HOURS.hasty
  const skies = memory.winters(place, seed, cutDay, stepHours, supply.pack.cell.charging ?? ANY_WARMTH)
  /** Runs in which nothing can be worn out by the end of the years aimed at, and those in which the flash is. */
  const wear = { sound: 0, worn: 0 }

  const countWear = (aimed_years: number, fade: number, flashLife_days: number) => {
    if (flashLife_days < aimed_years * DAYS) wear.worn++
    else if (fade < END_OF_LIFE) wear.sound++
  }

  return {
    years: 1,
    stepsPerHour: 1 / stepHours,
    walk({ run, design, rows, plan, flashLife_days }: Drawn) {
      const winter = skies.of(run, design.place)
      const before = yearsBefore(atAnyWarmth(plan), design, rows, winter, patience_days)
      // Any of the years: those after the flash is worn out are lost.
      const year = Math.floor(((run * GOLDEN) % 1) * years)
      const begun = before.planAfter(year)
      if (aims.years !== null)
        countWear(aims.years, before.fadeAfter(Math.max(aims.years, year)), flashLife_days)
      return {
        walk: new WinterWalk(begun, winter, cutDay),
        flashLife_days: flashLife_days - year * DAYS,
        isJudged: aims.years === null || year < aims.years,
      }
    },
    // What goes down in its one winter is down in the years aimed at; what does not, may be in another of them.
    bounds: ({ counts: { runs, survived } }) => ({
      bounds: {
        notWorn: { least: wear.sound, most: runs - wear.worn },
        neverDown: { least: 0, most: survived },
      },
    }),
  }
}

/** A step must be short beside the time for which the pack alone carries the device, which it may empty or fill. */
const PATIENCE_DAYS = 3
const STEP_HOURS = { patient: 6, hasty: 2 }

/** For how long the pack alone carries the device. */
function patienceOf(outpost: Outpost, calendarYear: number): number {
  const best = atBest(outpost)
  const { pack } = best.supply
  const [{ wakesPerDay }] = wakesOf(best.wake, best.place, { calendarYear, stepsPerHour: 1 / 24 })
  const daily_C = dayBudget_C(best, wakesPerDay).reduce((sum, part) => sum + part, 0)
  return (pack.capacity_C * pack.parallel) / daily_C
}
