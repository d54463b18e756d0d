import { z } from 'zod'
import { askedOutpost, outpostOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

/** As the command takes where it is not told. */
const RUNS = 200

export const variants: WorkOf<'variants'> = {
  asked: z.strictObject({ work: z.literal('variants'), ...askedOutpost }),
  run: async (asked, doing) => {
    const { compareVariants } = await import('../../workbench/compare-variants.ts')
    const { calendarYear } = doing
    const choices = {
      years: null,
      runs: RUNS,
      seed: asked.seed,
      weather: null,
      stepsPerHour: 1,
      calendarYear,
      colour: false,
    }
    return compareVariants(outpostOf(asked, doing), choices, doing)
  },
}
