/** The file that is recorded into: lines as they came, whole ones only, so that it reads well whenever it ends. */
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs'
import { Refusal } from './refusal.ts'

const LINE_END = 10
const NOTHING = new Uint8Array(0)

export class RecordFile {
  /** Bytes behind the last end of line. */
  private tail: Uint8Array = NOTHING
  private file: number
  private skipping: boolean

  /** A file that is there already is never touched. `midLine`: what comes before the first end of line is left out. */
  constructor(path: string, midLine: boolean) {
    this.skipping = midLine
    try {
      this.file = openSync(path, 'wx')
    } catch (error) {
      const { code, message } = error as NodeJS.ErrnoException
      throw new Refusal(
        code === 'EEXIST'
          ? `${path} exists already and is left as it is. Name another file.`
          : `${path} cannot be written: ${message}`,
      )
    }
  }

  /** The whole lines that are complete with these bytes, written. */
  push(bytes: Uint8Array): Uint8Array {
    const all = Buffer.concat([this.tail, bytes])
    const end = all.lastIndexOf(LINE_END) + 1
    this.tail = all.subarray(end)
    const start = this.skipping ? all.indexOf(LINE_END) + 1 : 0
    if (end > 0) this.skipping = false
    return this.write(all.subarray(start, end))
  }

  /**
   * At the end of the source. A last line without its end is whole where the source ended by itself, and may be cut
   * where it was broken off: then it is left out.
   */
  end(byItself: boolean): { readonly lines: Uint8Array; readonly cut: boolean } {
    const isWhole = byItself && !this.skipping
    const lines =
      isWhole && this.tail.length > 0
        ? this.write(Buffer.concat([this.tail, Uint8Array.of(LINE_END)]))
        : NOTHING
    const cut = !isWhole && this.tail.length > 0
    fsyncSync(this.file)
    closeSync(this.file)
    return { lines, cut }
  }

  private write(lines: Uint8Array): Uint8Array {
    for (let done = 0; done < lines.length; ) done += writeSync(this.file, lines, done)
    return lines
  }
}
