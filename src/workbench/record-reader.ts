/** Lines as they come, read as soon as their dialect is known; lines are never held back from the file for that. */
import { CSV_HEAD, CsvStream, planCsv } from '../recording/csv.ts'
import type { CsvOptions } from '../recording/csv-columns.ts'
import { LiveTally } from './record-tally.ts'

/** Enough to tell a header from data, and rising times from currents. */
const LINES_TO_JUDGE = 8

export class LiveReader {
  tally = new LiveTally(null)
  /** Why nothing could be read, once there is enough to judge by. */
  problem: string | null = null
  private head: Uint8Array = new Uint8Array(0)
  private stream: CsvStream | null = null
  private isBroken = false
  private readonly options: CsvOptions

  constructor(options: CsvOptions) {
    this.options = options
  }

  /** Whole lines. What cannot be read along is in the file all the same: it is a problem, and never an error. */
  push(lines: Uint8Array): void {
    if (this.isBroken) return
    try {
      this.read(lines)
    } catch (error) {
      this.isBroken = true
      this.problem = `reading along broke off: ${(error as Error).message}`
    }
  }

  private read(lines: Uint8Array): void {
    if (this.stream !== null) {
      this.stream.push(lines)
      return
    }
    if (this.head.length < CSV_HEAD) this.head = Buffer.concat([this.head, lines])
    if (this.head.filter((byte) => byte === 10).length >= LINES_TO_JUDGE) this.begin()
  }

  end(): void {
    if (this.isBroken) return
    if (this.stream === null && this.head.length > 0) this.begin()
    this.stream?.end()
  }

  private begin(): void {
    try {
      const plan = planCsv(this.head, this.options)
      this.tally = new LiveTally(plan.interval_s)
      this.stream = new CsvStream(plan, this.tally)
      this.problem = null
      this.stream.push(this.head.subarray(plan.firstByte))
    } catch (error) {
      if (!(error instanceof Error) || this.stream !== null) throw error
      this.problem = error.message
    }
  }
}
