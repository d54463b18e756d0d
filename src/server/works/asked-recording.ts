/** What all work on a recording asks with, and the recording and instrument that it names, opened. */
import { z } from 'zod'
import type { Import, Reading } from '../../api/bench.ts'
import type { Instrument } from '../../recording/instrument.ts'
import type { OpenRecording } from '../../store/recording-folder.ts'
import type { ReadRecording } from '../../workbench/read-recording.ts'
import { keptIn, readOptions } from '../kept-recordings.ts'
import { servedFile } from '../served-file.ts'
import { MOST_NAME } from './asked-outpost.ts'
import type { Doing } from './work.ts'

/** No instrument samples faster. */
const MOST_RATE_Hz = 1e10
const MOST_VOLTAGE_V = 1000
const MOST_RANGES = 1000

export const askedSource = {
  file: z.string().max(MOST_NAME),
  rate_Hz: z.number().positive().max(MOST_RATE_Hz).nullable(),
}

export const askedInstrument = { instrument: z.string().max(MOST_NAME).nullable() }

export const askedRanges = { ranges: z.array(z.string().max(MOST_NAME)).max(MOST_RANGES).default([]) }

export const askedReading = {
  ...askedSource,
  ...askedInstrument,
  from_s: z.number().nullable(),
  to_s: z.number().nullable(),
  voltage_V: z.number().positive().max(MOST_VOLTAGE_V).nullable(),
  ...askedRanges,
}

type Watched = Pick<Doing, 'folder' | 'signal'> & { readonly onProgress?: Doing['onProgress'] }

/** Imports it where it was not before; progress counts bytes. */
export async function openAsked({ file, rate_Hz }: Import, doing: Watched): Promise<OpenRecording> {
  const { openSource } = await import('../../workbench/read-recording.ts')
  return openSource(servedFile(doing.folder, file, 'recording'), {
    read: readOptions(rate_Hz),
    strict: false,
    signal: doing.signal,
    onProgress: doing.onProgress ?? (() => {}),
    root: keptIn(doing.folder),
    called: file,
  })
}

export async function instrumentAsked(name: string | null, { folder }: Watched): Promise<Instrument | null> {
  if (name === null) return null
  const { openInstrument } = await import('../../workbench/instrument-file.ts')
  return openInstrument(servedFile(folder, name, 'list'), false, name)
}

/** The analysis looks at each sample so many times, more or less. */
const LOOKS = 2.4

/** For whoever watches: it is never done before it ends. */
export const looksShown =
  (samples: number, onProgress: Doing['onProgress'] = () => {}): ((looked: number) => void) =>
  (looked) =>
    onProgress(Math.min(looked / (LOOKS * samples), 0.99), 1)

/** Opens, reads, makes the answer while it is open, and closes. */
export async function readAsked<T>(
  asked: Reading,
  doing: Watched,
  answer: (read: ReadRecording, recording: OpenRecording) => T,
): Promise<T> {
  const [{ readRecording }, { rangeMarks }] = await Promise.all([
    import('../../workbench/read-recording.ts'),
    import('../../workbench/range-marks.ts'),
  ])
  const instrument = await instrumentAsked(asked.instrument, doing)
  const recording = await openAsked(asked, { folder: doing.folder, signal: doing.signal })
  try {
    const { from_s, to_s, voltage_V, ranges = [] } = asked
    const { samples, duration_s } = recording.header
    const share = ((to_s ?? duration_s) - (from_s ?? 0)) / duration_s
    const read = readRecording(recording, {
      span: { from_s, to_s },
      voltage_V,
      instrument,
      marks: rangeMarks(ranges, instrument, recording),
      onLooked: looksShown(share * samples, doing.onProgress),
    })
    return answer(read, recording)
  } finally {
    recording.close()
  }
}
