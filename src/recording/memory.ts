/** A recording held in memory: for short sources, for live use, for the browser and for tests. */
import { type About, RecordingBuilder } from './builder.ts'
import {
  type Columns,
  PARTS,
  type Part,
  type PartSink,
  type PartSource,
  type Recording,
} from './recording.ts'

export class MemoryParts implements PartSink, PartSource {
  private readonly pieces = new Map<Part, Uint8Array<ArrayBuffer>>(
    PARTS.map((part) => [part, new Uint8Array(1024)]),
  )
  private readonly lengths = new Map<Part, number>(PARTS.map((part) => [part, 0]))

  append(part: Part, bytes: Uint8Array): void {
    let whole = this.pieces.get(part)!
    const length = this.lengths.get(part)!
    if (length + bytes.length > whole.length) {
      const larger = new Uint8Array(Math.max(2 * whole.length, length + bytes.length))
      larger.set(whole.subarray(0, length))
      whole = larger
      this.pieces.set(part, whole)
    }
    whole.set(bytes, length)
    this.lengths.set(part, length + bytes.length)
  }

  read(part: Part, byteOffset: number, byteLength: number): Uint8Array<ArrayBuffer> {
    if (byteOffset + byteLength > this.lengths.get(part)!)
      throw new RangeError(`part ${part} ends before byte ${byteOffset + byteLength}`)
    return this.pieces.get(part)!.slice(byteOffset, byteOffset + byteLength)
  }
}

export interface MemoryPlan {
  /** Step between samples where the columns hold no times. */
  readonly interval_s?: number
  readonly timeResolution_s?: number
  readonly name?: string
}

/** The recording of these columns. Give times, or `interval_s`; throws when neither or nothing is there. */
export function recordingOf(columns: Columns, plan: MemoryPlan = {}): Recording {
  if (columns.time_s === null && plan.interval_s === undefined)
    throw new Error('a recording needs times or an interval')
  const parts = new MemoryParts()
  const builder = new RecordingBuilder(parts, {
    hasVoltage: columns.voltage_V !== null,
    interval_s: columns.time_s === null ? (plan.interval_s ?? null) : null,
    timeResolution_s: plan.timeResolution_s ?? 0,
  })
  builder.columns(columns)
  const about: About = {
    source: { name: plan.name ?? 'memory', bytes: columns.current_A.byteLength, fingerprint: '' },
    origin: { kind: 'elapsed', first_s: 0 },
    notes: [],
  }
  return { ...builder.finish(about), parts }
}
