import { z } from 'zod'
import type { ReadRecording } from '../../workbench/read-recording.ts'
import { askedOutpost, outpostOf } from './asked-outpost.ts'
import { askedReading, readAsked } from './asked-recording.ts'
import { cut } from './read.ts'
import type { AskedOf, Doing, WorkOf } from './work.ts'

/** As the command takes where it is not told. */
const RUNS = 200

export const comparing: WorkOf<'compare recordings'> = {
  asked: z.strictObject({
    work: z.literal('compare recordings'),
    before: z.strictObject(askedReading),
    after: z.strictObject(askedReading),
    outpost: z.strictObject(askedOutpost).nullable(),
  }),
  run: async (asked, doing) => {
    const { compareRecordings } = await import('../../workbench/compare-recordings.ts')
    const wanted = await outlookWanted(asked, doing)
    const silent = { folder: doing.folder, signal: doing.signal }
    const keep = (read: ReadRecording) => read
    const was = await readAsked(asked.before, silent, keep)
    const is = await readAsked(asked.after, silent, keep)
    const comparison = await compareRecordings(was, is, wanted)
    return { ...comparison, before: cut(comparison.before), after: cut(comparison.after) }
  },
}

async function outlookWanted({ outpost }: AskedOf<'compare recordings'>, doing: Doing) {
  if (outpost === null) return null
  const { openDesign } = await import('../../workbench/open-design.ts')
  const { variant, seed, file } = outpost
  const choices = {
    years: null,
    runs: RUNS,
    seed,
    stepsPerHour: 1,
    calendarYear: doing.calendarYear,
    colour: false,
  }
  const open = await openDesign(outpostOf(outpost, doing), variant, false)
  return { path: file, open, choices, playing: doing }
}
