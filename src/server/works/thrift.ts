import { z } from 'zod'
import { askedOutpost, outpostOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

/** As the command takes where it is not told. */
const HYSTERESIS_V = 0.05
const CONVERTER = { resolution_V: 0.005, offset_V: 0.01 }
const YEAR_S = 31_557_600

export const thrift: WorkOf<'thrift'> = {
  asked: z.strictObject({
    work: z.literal('thrift'),
    ...askedOutpost,
    intervals_s: z.array(z.number().min(1).max(YEAR_S)).min(1).max(32).nullable(),
    mostRows: z.int().min(1).max(8),
  }),
  run: async (asked, doing) => {
    const { thriftFile } = await import('../../workbench/thrift.ts')
    const { seed, variant, intervals_s, mostRows } = asked
    const usual = {
      runs: null,
      wanted: null,
      weather: null,
      hysteresis_V: HYSTERESIS_V,
      converter: CONVERTER,
      colour: false,
    }
    return thriftFile(
      outpostOf(asked, doing),
      { ...usual, seed, variant, intervals_s, mostRows, calendarYear: doing.calendarYear },
      doing,
    )
  },
}
