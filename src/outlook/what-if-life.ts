/** Whole lives of a device that nothing charges, in strides of days. */
import type { Outpost } from '../outpost/outpost.ts'
import { atBest } from './draw.ts'
import { judgedDays } from './ensemble.ts'
import type { WhatIfMemory } from './what-if-memory.ts'
import type { Pace, WhatIfChoices } from './what-if-pace.ts'
import { StrideWalk } from './what-if-stride-walk.ts'
import { stridesOf } from './what-if-strides.ts'

export function lifePace(outpost: Outpost, choices: WhatIfChoices, memory: WhatIfMemory): Pace {
  const { years, seed, cutDay } = choices
  const strides = stridesOf(years, judgedDays(outpost.aims, years))
  const skies = memory.lives(atBest(outpost).place, seed, cutDay, strides)
  return {
    years,
    stepsPerHour: 1 / 24,
    walk: ({ run, design, rows, plan, flashLife_days }) => ({
      walk: new StrideWalk(plan, design.supply.pack, rows, { skies, run, strides }),
      flashLife_days,
      isJudged: true,
    }),
    bounds: () => ({}),
  }
}
