import { z } from 'zod'
import { askedOutpost, askedPlay, outpostOf, pathOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

/** As the command takes where it is not told. */
const RUNS = 200

export const variants: WorkOf<'variants'> = {
  asked: z.strictObject({ work: z.literal('variants'), ...askedOutpost, ...askedPlay }),
  run: async (asked, doing) => {
    const { compareVariants } = await import('../../workbench/compare-variants.ts')
    const { seed, years = null, runs, weather } = asked
    const { calendarYear } = doing
    const choices = { years, runs: runs ?? RUNS, seed, stepsPerHour: 1, calendarYear, colour: false }
    return compareVariants(
      outpostOf(asked, doing),
      { ...choices, weather: pathOf(weather, 'weather', doing) },
      doing,
    )
  },
}
