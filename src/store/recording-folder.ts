/** A recording as a folder: one file for each part, and `recording.json` with the header (docs/recording-format.md). */
import { closeSync, existsSync, openSync, readFileSync, readSync, writeFileSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import { BLOCK_FIELDS } from '../recording/layout.ts'
import {
  PARTS,
  type Part,
  type PartSink,
  type PartSource,
  type Recording,
  type RecordingHeader,
} from '../recording/recording.ts'

const HEADER = 'recording.json'

/** Writes parts into files of an existing, empty folder. Small pieces are gathered first. */
export class FolderSink implements PartSink {
  private readonly files = new Map<Part, number>()
  private readonly folder: string

  constructor(folder: string) {
    this.folder = folder
    for (const part of PARTS) this.files.set(part, openSync(join(folder, part), 'wx'))
  }

  append(part: Part, bytes: Uint8Array): void {
    const file = this.files.get(part)!
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done)
  }

  /** The header comes last: a folder without one is no recording. */
  finish(header: RecordingHeader): void {
    this.close()
    writeFileSync(join(this.folder, HEADER), `${JSON.stringify(header, null, 2)}\n`)
  }

  close(): void {
    for (const file of this.files.values()) closeSync(file)
    this.files.clear()
  }
}

class FolderSource implements PartSource {
  private readonly files = new Map<Part, number>()
  private readonly folder: string

  constructor(folder: string) {
    this.folder = folder
  }

  read(part: Part, byteOffset: number, byteLength: number): Uint8Array<ArrayBuffer> {
    let file = this.files.get(part)
    if (file === undefined) {
      file = openSync(join(this.folder, part), 'r')
      this.files.set(part, file)
    }
    const bytes = new Uint8Array(byteLength)
    for (let done = 0; done < byteLength; ) {
      const got = readSync(file, bytes, done, byteLength - done, byteOffset + done)
      if (got === 0)
        throw new Error(`${join(this.folder, part)} is cut off; delete the folder and import again`)
      done += got
    }
    return bytes
  }

  close(): void {
    for (const file of this.files.values()) closeSync(file)
    this.files.clear()
  }
}

export interface OpenRecording extends Recording {
  readonly folder: string
  close(): void
}

export const isRecordingFolder = (folder: string): boolean => existsSync(join(folder, HEADER))

/** Opens a recording folder; reads its header and block table, and nothing else until asked. */
export function openRecording(folder: string): OpenRecording {
  if (!isRecordingFolder(folder)) throw new Error(`${folder} is no recording: it has no ${HEADER}`)
  const header = JSON.parse(readFileSync(join(folder, HEADER), 'utf8')) as RecordingHeader
  if (header.format !== 1)
    throw new Error(
      `${folder} has recording format ${header.format}, and only 1 is known; import its source again`,
    )
  const bytes = readFileSync(join(folder, 'blocks'))
  const table = new Float64Array(bytes.length / 8)
  new Uint8Array(table.buffer).set(bytes)
  if (table.length % BLOCK_FIELDS !== 0)
    throw new Error(`${folder} has a damaged block table; import its source again`)
  const parts = new FolderSource(folder)
  return { header, table, parts, folder, close: () => parts.close() }
}
