import { z } from 'zod'
import { askedOutpost, askedPlay, outpostOf, pathOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

export const forecast: WorkOf<'forecast'> = {
  asked: z.strictObject({
    work: z.literal('forecast'),
    ...askedOutpost,
    ...askedPlay,
    stepsPerHour: z.union([z.literal(1), z.literal(6)]).default(1),
  }),
  run: async (asked, doing) => {
    const { forecastFile } = await import('../../workbench/forecast.ts')
    const { years = null, runs = null, weather, stepsPerHour = 1, seed, variant } = asked
    const { calendarYear } = doing
    const choices = { years, runs, seed, variant, calendarYear, stepsPerHour, colour: false }
    return forecastFile(
      outpostOf(asked, doing),
      { ...choices, weather: pathOf(weather, 'weather', doing) },
      doing,
    )
  },
}
