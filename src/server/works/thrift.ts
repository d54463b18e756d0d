import { z } from 'zod'
import { askedOutpost, askedPlay, outpostOf, pathOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

/** As the command takes where it is not told. */
const HYSTERESIS_V = 0.05
const CONVERTER = { resolution_V: 0.005, offset_V: 0.01 }
const YEAR_S = 31_557_600

export const thrift: WorkOf<'thrift'> = {
  asked: z.strictObject({
    work: z.literal('thrift'),
    ...askedOutpost,
    runs: z.int().min(8).max(100_000).nullable().default(null),
    weather: askedPlay.weather,
    intervals_s: z.array(z.number().min(1).max(YEAR_S)).min(1).max(32).nullable(),
    mostRows: z.int().min(1).max(8),
    wanted: z.number().min(0.5).max(0.995).nullable().default(null),
    hysteresis_V: z.number().min(0.001).max(1).default(HYSTERESIS_V),
    converter: z
      .strictObject({ resolution_V: z.number().min(0.0001).max(0.5), offset_V: z.number().min(0).max(0.5) })
      .default(CONVERTER),
  }),
  run: async (asked, doing) => {
    const { thriftFile } = await import('../../workbench/thrift.ts')
    const { seed, variant, intervals_s, mostRows, runs = null, wanted = null } = asked
    const { hysteresis_V = HYSTERESIS_V, converter = CONVERTER } = asked
    const { calendarYear } = doing
    const choices = {
      seed,
      variant,
      intervals_s,
      mostRows,
      runs,
      wanted,
      hysteresis_V,
      converter,
      calendarYear,
    }
    return thriftFile(
      outpostOf(asked, doing),
      { ...choices, weather: pathOf(asked.weather, 'weather', doing), colour: false },
      doing,
    )
  },
}
