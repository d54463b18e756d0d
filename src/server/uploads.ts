/**
 * Files that a page sends in pieces. They grow under a name of their own in `.overwinter/uploads`, and get theirs when they
 * are whole; what was dropped, or left, leaves nothing.
 */
import { randomUUID } from 'node:crypto'
import { type FileHandle, mkdir, open, readdir, rm, statfs } from 'node:fs/promises'
import { join } from 'node:path'
import type { UploadBegun, UploadKept, UploadReceived } from '../api/bench.ts'
import { keptIn } from './kept-recordings.ts'
import { placed, readableName } from './placed-upload.ts'
import { Refused, refusedByDisk } from './refused.ts'
import { checkedName } from './served-file.ts'

export const PIECE_BYTES = 4 << 20
const MOST_UPLOADS = 8
/** One for which nothing comes so long is dropped. */
const IDLE_MS = 3_600_000

interface Upload {
  readonly name: string
  readonly bytes: number
  readonly partial: string
  readonly file: FileHandle
  received: number
  /** One piece at a time. */
  busy: boolean
  idle: NodeJS.Timeout
}

export class Uploads {
  private readonly underWay = new Map<string, Upload>()
  private readonly folder: string
  /** Once, before the first of its own is begun. */
  private cleared: Promise<void> | null = null

  constructor(folder: string, closing: AbortSignal) {
    this.folder = folder
    closing.addEventListener('abort', () => {
      for (const id of [...this.underWay.keys()]) void this.drop(id)
    })
  }

  async begin(name: string, bytes: number): Promise<UploadBegun> {
    if (name.includes('/'))
      throw new Refused(400, 'That is no name of a file: it goes into the folder itself, without any /.')
    const readable = checkedName(readableName(name), 'recording')
    if (this.underWay.size >= MOST_UPLOADS)
      throw new Refused(422, `${MOST_UPLOADS} files are on their way already. Let one of them end first.`)
    const home = join(keptIn(this.folder), '..', 'uploads')
    try {
      await mkdir(home, { recursive: true })
      this.cleared ??= clearAbandoned(home)
      await this.cleared
      await checkRoom(home, name, bytes)
      const id = randomUUID()
      const partial = join(home, `${process.pid}-${id}`)
      const file = await open(partial, 'wx')
      this.underWay.set(id, {
        name: readable,
        bytes,
        partial,
        file,
        received: 0,
        busy: false,
        idle: this.idling(id),
      })
      return { id, pieceBytes: PIECE_BYTES }
    } catch (error) {
      throw refusedByDisk(name, 'written', error)
    }
  }

  received(id: string): UploadReceived {
    return { received: this.find(id).received }
  }

  /** `at` is where the last piece ended. */
  async take(id: string, at: number, piece: Uint8Array): Promise<UploadReceived> {
    const upload = this.find(id)
    if (upload.busy || at !== upload.received)
      throw new Refused(422, `The next piece begins at byte ${upload.received}, not at ${at}.`)
    if (at + piece.length > upload.bytes)
      throw new Refused(413, `${upload.name} was to have ${upload.bytes} bytes, and this is more.`)
    upload.busy = true
    clearTimeout(upload.idle)
    try {
      for (let done = 0; done < piece.length; )
        done += (await upload.file.write(piece, done, piece.length - done, at + done)).bytesWritten
      upload.received = at + piece.length
      return { received: upload.received }
    } catch (error) {
      throw refusedByDisk(upload.name, 'written', error)
    } finally {
      upload.busy = false
      upload.idle = this.idling(id)
    }
  }

  /** Puts it into the folder under its name, or its name with a number where that is taken. */
  async keep(id: string): Promise<UploadKept> {
    const upload = this.find(id)
    if (upload.busy || upload.received !== upload.bytes)
      throw new Refused(422, `${upload.name} has ${upload.received} of ${upload.bytes} bytes so far.`)
    upload.busy = true
    try {
      await upload.file.sync()
      const file = await placed(upload.partial, this.folder, upload.name)
      await this.drop(id)
      return { file }
    } catch (error) {
      upload.busy = false
      throw refusedByDisk(upload.name, 'written', error)
    }
  }

  async drop(id: string): Promise<void> {
    const upload = this.underWay.get(id)
    if (upload === undefined) return
    this.underWay.delete(id)
    clearTimeout(upload.idle)
    await upload.file.close().catch(() => {})
    await rm(upload.partial, { force: true })
  }

  private find(id: string): Upload {
    const upload = this.underWay.get(id)
    if (upload === undefined)
      throw new Refused(404, 'That file is not on its way any more. Drop it onto the page once more.')
    return upload
  }

  private idling(id: string): NodeJS.Timeout {
    return setTimeout(() => void this.drop(id), IDLE_MS).unref()
  }
}

/** What a server left that was killed: its process is gone, or its number is ours now. */
async function clearAbandoned(home: string): Promise<void> {
  for (const name of await readdir(home)) {
    const left_by = Number.parseInt(name, 10)
    if (left_by === process.pid || !isRunning(left_by)) await rm(join(home, name), { force: true })
  }
}

/** Signal 0 only asks. */
function isRunning(process_id: number): boolean {
  try {
    process.kill(process_id, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

async function checkRoom(home: string, name: string, bytes: number): Promise<void> {
  const { bavail, bsize } = await statfs(home)
  if (bytes > bavail * bsize)
    throw new Refused(422, `${name} has ${bytes} bytes, and the disk has room for ${bavail * bsize}.`)
}
