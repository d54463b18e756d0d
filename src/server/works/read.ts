import { z } from 'zod'
import { MOST_BANDS, MOST_CYCLES, type ReadAnswer } from '../../api/bench.ts'
import { cyclesDensity } from '../../recording/cycles-density.ts'
import type { RecordingReading } from '../../report/recording-reading.ts'
import type { ReadRecording } from '../../workbench/read-recording.ts'
import { askedReading, readAsked } from './asked-recording.ts'
import type { WorkOf } from './work.ts'

export const read: WorkOf<'read'> = {
  asked: z.strictObject({ work: z.literal('read'), ...askedReading }),
  run: async (asked, doing) => readAsked(asked, doing, answerOf),
}

/** Lists that would take a page longer than they help are cut. */
export function cut(reading: RecordingReading): RecordingReading {
  return { ...reading, cycles: { ...reading.cycles, list: reading.cycles.list.slice(0, MOST_CYCLES) } }
}

function answerOf({ reading, analysis, samples, span }: ReadRecording): ReadAnswer {
  const { segments, cycles } = analysis
  const density = cyclesDensity(samples, segments, cycles)
  return {
    reading: cut(reading),
    cycles: cycles.list.length,
    bands: {
      times_s: Array.from(segments.times_s.subarray(0, MOST_BANDS + 1), (time_s) => time_s + span.from_s),
      states: [...segments.states.subarray(0, MOST_BANDS)],
    },
    density: density && { ...density, counts: [...density.counts] },
  }
}
