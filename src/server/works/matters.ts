import { z } from 'zod'
import { askedOutpost, askedPlay, outpostOf, pathOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

export const matters: WorkOf<'matters'> = {
  asked: z.strictObject({
    work: z.literal('matters'),
    ...askedOutpost,
    ...askedPlay,
    runs: z.int().min(8).max(65_536).nullable().default(null),
  }),
  run: async (asked, doing) => {
    const { mattersFile } = await import('../../workbench/matters.ts')
    const { seed, variant, years = null, runs = null, weather } = asked
    const { calendarYear } = doing
    const choices = { years, rows: runs, seed, variant, calendarYear, colour: false }
    return mattersFile(
      outpostOf(asked, doing),
      { ...choices, weather: pathOf(weather, 'weather', doing) },
      doing,
    )
  },
}
