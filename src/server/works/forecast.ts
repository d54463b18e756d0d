import { z } from 'zod'
import { askedOutpost, outpostOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

export const forecast: WorkOf<'forecast'> = {
  asked: z.strictObject({
    work: z.literal('forecast'),
    ...askedOutpost,
    years: z.int().min(1).max(60).nullable().default(null),
    runs: z.int().min(1).max(100_000).nullable().default(null),
  }),
  run: async (asked, doing) => {
    const { forecastFile } = await import('../../workbench/forecast.ts')
    const { years = null, runs = null, seed, variant } = asked
    const { calendarYear } = doing
    const choices = {
      years,
      runs,
      seed,
      variant,
      calendarYear,
      stepsPerHour: 1,
      weather: null,
      colour: false,
    }
    return forecastFile(outpostOf(asked, doing), choices, doing)
  },
}
