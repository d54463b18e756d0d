import { relative } from 'node:path'
import { z } from 'zod'
import { servedFile } from '../served-file.ts'
import { askedOutpost, MOST_NAME, outpostOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

/** Those around the outpost's own. */
const USUAL_AXES = { capacities_C: null, powers_W: null, intervals_s: null }

export const size: WorkOf<'size'> = {
  asked: z.strictObject({
    work: z.literal('size'),
    ...askedOutpost,
    wanted: z.number().min(0.5).max(0.995).nullable(),
    partsFile: z.string().max(MOST_NAME).nullable(),
    objective: z.string().max(MOST_NAME),
  }),
  run: async (asked, doing) => {
    const { sizeFile } = await import('../../workbench/size.ts')
    const { variant, seed, wanted, partsFile, objective } = asked
    const { calendarYear, folder } = doing
    const usual = { years: null, runs: null, weather: null, axes: USUAL_AXES, stepsPerHour: 1, colour: false }
    const parts = partsFile === null ? null : relative(process.cwd(), servedFile(folder, partsFile, 'list'))
    return sizeFile(
      outpostOf(asked, doing),
      { ...usual, variant, seed, wanted, objective, calendarYear, partsFile: parts },
      doing,
    )
  },
}
