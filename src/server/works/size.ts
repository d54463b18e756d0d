import { z } from 'zod'
import { CELLS, INTERVALS, type ListBounds, PANELS } from '../../quantity/parse-quantities.ts'
import { askedOutpost, askedPlay, MOST_NAME, outpostOf, pathOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

/** Those around the outpost's own. */
const USUAL_AXES = { capacities_C: null, powers_W: null, intervals_s: null }

const axis = ({ low, high }: ListBounds) => z.array(z.number().min(low).max(high)).min(1).max(24).nullable()

export const size: WorkOf<'size'> = {
  asked: z.strictObject({
    work: z.literal('size'),
    ...askedOutpost,
    ...askedPlay,
    wanted: z.number().min(0.5).max(0.995).nullable(),
    partsFile: z.string().max(MOST_NAME).nullable(),
    objective: z.string().max(MOST_NAME),
    axes: z
      .strictObject({ capacities_C: axis(CELLS), powers_W: axis(PANELS), intervals_s: axis(INTERVALS) })
      .default(USUAL_AXES),
  }),
  run: async (asked, doing) => {
    const { sizeFile } = await import('../../workbench/size.ts')
    const { variant, seed, wanted, objective, years = null, runs = null, axes = USUAL_AXES } = asked
    const { calendarYear } = doing
    const choices = { variant, seed, wanted, objective, years, runs, axes, calendarYear }
    return sizeFile(
      outpostOf(asked, doing),
      {
        ...choices,
        weather: pathOf(asked.weather, 'weather', doing),
        partsFile: pathOf(asked.partsFile, 'list', doing),
        stepsPerHour: 1,
        colour: false,
      },
      doing,
    )
  },
}
