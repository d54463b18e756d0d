import { z } from 'zod'
import { askedOutpost, outpostOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

export const matters: WorkOf<'matters'> = {
  asked: z.strictObject({ work: z.literal('matters'), ...askedOutpost }),
  run: async (asked, doing) => {
    const { mattersFile } = await import('../../workbench/matters.ts')
    const { seed, variant } = asked
    const choices = {
      years: null,
      rows: null,
      seed,
      variant,
      weather: null,
      calendarYear: doing.calendarYear,
      colour: false,
    }
    return mattersFile(outpostOf(asked, doing), choices, doing)
  },
}
