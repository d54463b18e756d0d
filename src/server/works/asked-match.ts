/** A recording beside an outpost, as `adopt` and `check` are asked for it. */
import { z } from 'zod'
import type { RecordingMatch } from '../../api/bench.ts'
import type { MatchedRecording } from '../../workbench/matched-recording.ts'
import type { OpenDesign } from '../../workbench/open-design.ts'
import { MOST_TEXT } from '../request-body.ts'
import { checkedName } from '../served-file.ts'
import { MOST_NAME } from './asked-outpost.ts'
import {
  askedInstrument,
  askedRanges,
  askedSource,
  instrumentAsked,
  looksShown,
  openAsked,
} from './asked-recording.ts'
import type { Doing } from './work.ts'

const MOST_MAPS = 100

export const askedMatch = {
  ...askedSource,
  ...askedInstrument,
  ...askedRanges,
  outpost: z.strictObject({
    file: z.string().max(MOST_NAME),
    text: z.string().max(MOST_TEXT),
    variant: z.string().max(MOST_NAME).nullable(),
  }),
  maps: z.array(z.string().max(MOST_NAME)).max(MOST_MAPS),
  where: z.enum(['rail', 'cell']),
}

/** Opens both, matches, makes the answer while the recording is open, and closes. */
export async function matchAsked<T>(
  { file, rate_Hz, instrument: instrumentFile, ranges = [], outpost, maps, where }: RecordingMatch,
  doing: Doing,
  answer: (matched: MatchedRecording, open: OpenDesign) => T,
): Promise<T> {
  const { openDesign } = await import('../../workbench/open-design.ts')
  const { matchedRecording } = await import('../../workbench/matched-recording.ts')
  const path = checkedName(outpost.file, 'outpost')
  const open = await openDesign({ path, text: outpost.text, folder: doing.folder }, outpost.variant, false)
  const instrument = await instrumentAsked(instrumentFile, doing)
  const recording = await openAsked({ file, rate_Hz }, { folder: doing.folder, signal: doing.signal })
  try {
    const onLooked = looksShown(recording.header.samples, doing.onProgress)
    return answer(matchedRecording(open, recording, { instrument, maps, where, ranges, onLooked }), open)
  } finally {
    recording.close()
  }
}
