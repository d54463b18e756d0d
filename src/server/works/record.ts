import { existsSync } from 'node:fs'
import { z } from 'zod'
import type { Live } from '../../api/bench.ts'
import type { LivePicture } from '../../report/live-picture.ts'
import type { Recorded } from '../../workbench/record.ts'
import { Refused } from '../refused.ts'
import { checkedPort } from '../serial-ports.ts'
import { freshFile } from '../served-file.ts'
import { MOST_NAME } from './asked-outpost.ts'
import { askedSource } from './asked-recording.ts'
import type { WorkOf } from './work.ts'

/** What the fastest converters take. */
const MOST_BAUD = 12_000_000

export const recording: WorkOf<'record'> = {
  asked: z.strictObject({
    work: z.literal('record'),
    port: z.string().max(MOST_NAME),
    baud: z.int().min(50).max(MOST_BAUD),
    out: z.string().max(MOST_NAME),
    rate_Hz: askedSource.rate_Hz,
    id: z.string().regex(/^[\w-]{8,64}$/),
  }),
  run: async ({ port, baud, out, rate_Hz }, doing) => {
    const { record } = await import('../../workbench/record.ts')
    const { serialPort } = await import('../../workbench/record-source.ts')
    const path = fileFor(out, doing.folder)
    const source = await serialPort(checkedPort(port), baud)
    try {
      const recorded = await record(source, {
        out: path,
        read: rate_Hz === null ? {} : { rate_Hz },
        signal: AbortSignal.any([doing.enough, doing.signal]),
        onPicture: (picture, problem) =>
          doing.onPicture({ out, picture: shown(picture), problem, ending: null }),
      })
      return liveOf(out, recorded)
    } finally {
      source.close()
    }
  },
}

/** Lines are kept as they come, so it is a table of text. */
function fileFor(out: string, folder: string): string {
  if (!/\.(csv|tsv)$/i.test(out)) throw new Refused(422, `${out} will not do: lines are kept as a .csv file.`)
  const path = freshFile(folder, out, 'recording')
  if (existsSync(path))
    throw new Refused(422, `${out} exists already and is left as it is. Give another name.`)
  return path
}

const shown = (picture: LivePicture): Live['picture'] => ({
  ...picture,
  highest_A: picture.highest_A.map((x) => (Number.isFinite(x) ? x : null)),
})

function liveOf(out: string, { ending, why, picture, problem, source }: Recorded): Live {
  const ended = {
    ended: null,
    stopped: null,
    pulled: `${source} is gone${why === null ? '' : ` (${why})`}: is the cable out? What came before is kept.`,
    'not written': `${out} takes no more: ${why}. What was written before is kept.`,
  }[ending]
  const unread = problem === null ? null : `The lines are kept, and cannot be read: ${problem}.`
  const words = [ended, unread].filter((sentence) => sentence !== null).join(' ')
  return { out, picture: shown(picture), problem: words === '' ? null : words, ending }
}
