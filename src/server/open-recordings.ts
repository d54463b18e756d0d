/** Recordings that were asked for lately, held open, so that a view costs what reading it costs and no more. */
import { stat } from 'node:fs/promises'
import { join } from 'node:path'
import { identify } from '../store/fingerprint.ts'
import { isRecordingFolder, type OpenRecording, openRecording } from '../store/recording-folder.ts'
import { keptIn, readOptions } from './kept-recordings.ts'
import { Refused, refusedByDisk } from './refused.ts'
import { servedFile } from './served-file.ts'

const MOST_OPEN = 6

type Opening = Promise<OpenRecording | null>

export class OpenRecordings {
  /** By source as it was, and rate. The one asked for last stands last. */
  private readonly held = new Map<string, Opening>()
  private readonly folder: string

  constructor(folder: string, closing: AbortSignal) {
    this.folder = folder
    closing.addEventListener('abort', () => {
      for (const key of [...this.held.keys()]) this.drop(key)
    })
  }

  /** For use at once: it may be closed when others are asked for. Null where the source was not imported as it is now. */
  async find(file: string, rate_Hz: number | null): Opening {
    const path = servedFile(this.folder, file, 'recording')
    const key = `${await stampOf(file, path)} ${rate_Hz} ${file}`
    const recording = await this.hold(key, () => this.open(path, rate_Hz))
    if (recording !== null && isRecordingFolder(recording.folder)) return recording
    // Not imported yet, or what was kept is gone: the next one to ask looks again.
    this.drop(key)
    return null
  }

  /** As `find`, with a Refused where there is none. */
  async get(file: string, rate_Hz: number | null): Promise<OpenRecording> {
    const recording = await this.find(file, rate_Hz)
    if (recording === null)
      throw new Refused(404, `${file} is not imported, or was changed since. Open it again on the bench.`)
    return recording
  }

  private hold(key: string, open: () => Opening): Opening {
    const opening = this.held.get(key) ?? open()
    this.held.delete(key)
    this.held.set(key, opening)
    for (const oldest of this.held.keys()) if (this.held.size > MOST_OPEN) this.drop(oldest)
    return opening
  }

  private async open(path: string, rate_Hz: number | null): Opening {
    const { fingerprint } = await identify(path, readOptions(rate_Hz))
    const kept = join(keptIn(this.folder), fingerprint)
    return isRecordingFolder(kept) ? openRecording(kept) : null
  }

  /** Whoever was just given it uses it first. */
  private drop(key: string): void {
    const opening = this.held.get(key)
    this.held.delete(key)
    opening?.then(
      (recording) => setImmediate(() => recording?.close()),
      () => {},
    )
  }
}

async function stampOf(file: string, path: string): Promise<string> {
  try {
    const { size, mtimeMs, ctimeMs, ino } = await stat(path)
    return [size, mtimeMs, ctimeMs, ino].join(' ')
  } catch (error) {
    throw refusedByDisk(file, 'read', error)
  }
}
