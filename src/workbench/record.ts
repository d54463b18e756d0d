/** The use case of recording live: from a source into a file, until it ends or somebody stops it. */
import type { CsvOptions } from '../recording/csv-columns.ts'
import type { LivePicture } from '../report/live-picture.ts'
import { RecordFile } from './record-file.ts'
import { LiveReader } from './record-reader.ts'
import type { LiveSource } from './record-source.ts'

export interface RecordChoices {
  readonly out: string
  readonly read: CsvOptions
  /** Stops it; what came until then is kept. */
  readonly signal: AbortSignal
  /** Now and then, while lines come or not. */
  readonly onPicture: (picture: LivePicture, problem: string | null) => void
}

/** How it ended: the source came to its end, somebody stopped it, the port went away, the disk took no more. */
export type Ending = 'ended' | 'stopped' | 'pulled' | 'not written'

export interface Recorded {
  readonly out: string
  readonly source: string
  readonly ending: Ending
  /** What went wrong, for the last two endings. */
  readonly why: string | null
  /** A last line that was under way when it ended, left out. */
  readonly cut: boolean
  readonly picture: LivePicture
  /** Why the lines could not be read as currents; they are in the file all the same. */
  readonly problem: string | null
}

const PICTURE_MS = 500

/** Throws a Refusal where the file is there already or cannot be begun. */
export async function record(source: LiveSource, choices: RecordChoices): Promise<Recorded> {
  const { out, read, signal, onPicture } = choices
  const file = new RecordFile(out, source.beginsMidLine)
  const reader = new LiveReader(read)
  const picture = () => onPicture(reader.tally.picture(), reader.problem)
  const timer = setInterval(picture, PICTURE_MS)
  const { ending, why } = await copied(source, signal, (bytes) => reader.push(file.push(bytes)))
  clearInterval(timer)
  source.close()
  const { lines, cut } = file.end(ending === 'ended' && !source.beginsMidLine)
  reader.push(lines)
  reader.end()
  return {
    out,
    source: source.name,
    ending: ending === 'ended' && source.beginsMidLine ? 'pulled' : ending,
    why,
    cut,
    picture: reader.tally.picture(),
    problem: reader.problem,
  }
}

interface Ended {
  readonly ending: Ending
  readonly why: string | null
}

function copied(
  { stream }: LiveSource,
  signal: AbortSignal,
  take: (bytes: Uint8Array) => void,
): Promise<Ended> {
  return new Promise((resolve) => {
    const end = (ending: Ending, why: string | null = null) => {
      stream.removeAllListeners('data')
      signal.removeEventListener('abort', stop)
      resolve({ ending, why })
    }
    const stop = () => end('stopped')
    stream.on('data', (bytes: Uint8Array) => {
      try {
        take(bytes)
      } catch (error) {
        end('not written', (error as Error).message)
      }
    })
    stream.once('end', () => end('ended'))
    stream.once('close', () => end('ended'))
    // A port that goes away gives EIO, or ENXIO; later errors of a stream that is done with say nothing.
    stream.on('error', (error: NodeJS.ErrnoException) => end('pulled', String(error.code)))
    if (signal.aborted) stop()
    else signal.addEventListener('abort', stop)
  })
}
