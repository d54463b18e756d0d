/** Tables of binary numbers, row after row: NumPy .npy (versions 1 to 3) and raw little-endian float32. */
import { OVERLOAD } from './overload.ts'
import type { Origin, SampleSink } from './recording.ts'
import { UnclearSource } from './unclear-source.ts'

type NumberKind = 'float32' | 'float64' | 'int16'
const NUMBER_BYTES: Record<NumberKind, number> = { float32: 4, float64: 8, int16: 2 }

export interface BinaryOptions {
  /** Samples a second: needed where there is no column of time; with it a two-column table is current and voltage. */
  readonly rate_Hz?: number
  /** Columns by place from 1; by default time (where no rate is given), current and voltage, in this order. */
  readonly time?: string | number
  readonly current?: string | number
  readonly voltage?: string | number
  readonly currentUnit?: string
  /** Amperes per unit of the numbers: 1 by default, needed for int16. */
  readonly scale_A?: number
}

export interface BinaryPlan {
  readonly number: NumberKind
  readonly rowNumbers: number
  readonly firstByte: number
  /** Rows stated by the source; null when only its end says. */
  readonly rows: number | null
  readonly time: number | null
  readonly current: number
  readonly voltage: number | null
  readonly scale_A: number
  readonly interval_s: number | null
  readonly timeResolution_s: number
  readonly origin: Origin
  readonly notes: readonly string[]
}

export const NPY_MAGIC = [0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59]
const DTYPES: Record<string, NumberKind> = { '<f4': 'float32', '<f8': 'float64', '<i2': 'int16' }

/** How to read raw float32 currents. */
export function planRaw(options: BinaryOptions): BinaryPlan {
  return planTable('float32', 1, null, 0, null, options)
}

/** How to read a .npy source whose first bytes are these. Throws Error with cause and cure. */
export function planNpy(head: Uint8Array, options: BinaryOptions): BinaryPlan {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  const major = head[6]
  if (head.length < 12 || !NPY_MAGIC.every((byte, k) => head[k] === byte) || major < 1 || major > 3)
    throw new Error('this is no .npy file of version 1 to 3')
  const start = major === 1 ? 10 : 12
  const end = start + (major === 1 ? view.getUint16(8, true) : view.getUint32(8, true))
  if (end > head.length) throw new Error('the header of this .npy file is cut off or far too long')
  const text = new TextDecoder().decode(head.subarray(start, end))
  const descr = /'descr'\s*:\s*'([^']*)'/.exec(text)?.[1] ?? ''
  const shape = /'shape'\s*:\s*\(([^)]*)\)/.exec(text)?.[1]
  const number = DTYPES[descr]
  if (number === undefined)
    throw new Error(
      `numbers of type ${descr || 'unknown'} are not read; save as float32, float64 or int16, little-endian`,
    )
  const sizes = (shape ?? '')
    .split(',')
    .filter((part) => part.trim() !== '')
    .map(Number)
  if (sizes.length < 1 || sizes.length > 2 || !sizes.every((n) => Number.isSafeInteger(n) && n > 0))
    throw new Error(
      `an array of shape (${shape ?? '?'}) is not read; save one or two dimensions that are not empty`,
    )
  const [rows, columns = 1] = sizes
  const byColumns = /'fortran_order'\s*:\s*True/.test(text) && columns > 1
  if (byColumns || (rows < 4 && columns > 1000))
    throw new Error('the array is stored column after column; save it transposed, one row per sample')
  return planTable(number, columns, rows, end, head, options)
}

function planTable(
  number: NumberKind,
  columns: number,
  rows: number | null,
  firstByte: number,
  head: Uint8Array | null,
  options: BinaryOptions,
): BinaryPlan {
  const { rate_Hz, scale_A } = options
  if (rate_Hz !== undefined && !(rate_Hz > 0 && Number.isFinite(rate_Hz)))
    throw new RangeError(`a sampling rate is above 0 Hz, not ${rate_Hz}`)
  if (rate_Hz === undefined && columns === 1)
    throw new Error('there is no time in this source; give the sampling rate')
  if (number === 'int16' && scale_A === undefined)
    throw new UnclearSource(
      'whole numbers are counts, and nothing says how many amperes per count; save them as float32 in A',
      ['scale'],
    )
  const timed = rate_Hz === undefined
  if (options.currentUnit !== undefined && options.currentUnit !== 'A')
    throw new Error('binary numbers have no unit in their source; give the current of one, as the scale')
  const placed = (role: 'time' | 'current' | 'voltage') => placeOf(role, options[role], columns)
  // With a rate, a first column that rises evenly is the time all the same: no current does.
  const leads = timed || (columns > 1 && head !== null && risesEvenly(head, firstByte, number, columns))
  const current = placed('current') ?? (leads ? 1 : 0)
  const voltage =
    placed('voltage') ?? (options.current === undefined && columns > current + 1 ? current + 1 : null)
  const time = timed ? (placed('time') ?? 0) : null
  if (time === current || voltage === current || (voltage !== null && time === voltage))
    throw new Error('one column cannot be two of time, current and voltage')
  const stamps = timed && head ? firstTimes(head, firstByte, number, columns, time ?? 0) : null
  const digits = number === 'float32' ? 2 ** -23 : Number.EPSILON
  const longest = stamps ? Math.abs(stamps.first) + Math.abs(stamps.step) * (rows ?? 0) : 0
  const parts = [
    timed ? 'time in s' : `time from a rate of ${rate_Hz} Hz${leads ? ', not from its column' : ''}`,
    'current in A',
    'voltage in V',
  ]
  return {
    number,
    rowNumbers: columns,
    firstByte,
    rows,
    time,
    current,
    voltage,
    scale_A: scale_A ?? 1,
    interval_s: rate_Hz === undefined ? null : 1 / rate_Hz,
    timeResolution_s: timed ? digits * longest : 0,
    origin: { kind: 'elapsed', first_s: stamps?.first ?? 0 },
    notes: [
      `${number}, columns in order: ${parts.slice(0, voltage === null ? 2 : 3).join(', ')}`,
      ...(scale_A === undefined ? [] : [`current scaled by ${scale_A} A`]),
    ],
  }
}

/** Place from 0 of a column that was asked for by its place from 1. */
function placeOf(role: string, asked: string | number | undefined, columns: number): number | null {
  if (asked === undefined) return null
  if (typeof asked === 'number' && Number.isInteger(asked) && asked >= 1 && asked <= columns) return asked - 1
  throw new Error(`there is no column ${asked} to be the ${role}; there are 1 to ${columns}, without names`)
}

/** Whether the first column of the rows in the head goes up by the same step each time. */
function risesEvenly(head: Uint8Array, firstByte: number, number: NumberKind, columns: number): boolean {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  const rowBytes = columns * NUMBER_BYTES[number]
  const rows = Math.min(Math.floor((head.length - firstByte) / rowBytes), ROWS_LOOKED_AT)
  const at = (row: number) => readNumber(view, firstByte + row * rowBytes, number)
  const step = rows < 3 ? 0 : (at(rows - 1) - at(0)) / (rows - 1)
  // float32 keeps seven digits of a time, so its steps differ a little.
  return (
    step > 0 &&
    Array.from({ length: rows }, (_, k) => Math.abs(at(k) - at(0) - k * step)).every((off) => off < step / 2)
  )
}
const ROWS_LOOKED_AT = 1000

function firstTimes(head: Uint8Array, firstByte: number, number: NumberKind, columns: number, time: number) {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  const rowBytes = columns * NUMBER_BYTES[number]
  if (firstByte + rowBytes + 8 > head.length) return { first: 0, step: 0 }
  const at = firstByte + time * NUMBER_BYTES[number]
  const first = readNumber(view, at, number)
  return { first, step: readNumber(view, at + rowBytes, number) - first }
}

function readNumber(view: DataView, at: number, number: NumberKind): number {
  if (number === 'float32') return view.getFloat32(at, true)
  return number === 'float64' ? view.getFloat64(at, true) : view.getInt16(at, true)
}

/** Reads the numbers after `plan.firstByte`, pushed in pieces of any size. */
export class BinaryStream {
  private rest = new Uint8Array(0)
  private rows = 0
  private readonly plan: BinaryPlan
  private readonly sink: SampleSink

  constructor(plan: BinaryPlan, sink: SampleSink) {
    this.plan = plan
    this.sink = sink
  }

  push(piece: Uint8Array): void {
    const bytes = new Uint8Array(this.rest.length + piece.length)
    bytes.set(this.rest)
    bytes.set(piece, this.rest.length)
    const { plan } = this
    const width = NUMBER_BYTES[plan.number]
    const rowBytes = plan.rowNumbers * width
    const left = plan.rows === null ? Number.POSITIVE_INFINITY : plan.rows - this.rows
    const count = Math.min(Math.floor(bytes.length / rowBytes), left)
    const view = new DataView(bytes.buffer)
    const column = (index: number, to: Float32Array | Float64Array, scale: number, origin: number) => {
      for (let i = 0, at = index * width; i < count; i++, at += rowBytes) {
        const x = readNumber(view, at, plan.number)
        to[i] = Math.abs(x) < OVERLOAD ? x * scale - origin : Number.NaN
      }
      return to
    }
    const first = plan.origin.kind === 'elapsed' ? plan.origin.first_s : 0
    const current_A = new Float32Array(count)
    column(plan.current, current_A, plan.scale_A, 0)
    const time_s = plan.time === null ? null : new Float64Array(count)
    if (time_s) column(plan.time ?? 0, time_s, 1, first)
    const voltage_V = plan.voltage === null ? null : new Float32Array(count)
    if (voltage_V) column(plan.voltage ?? 0, voltage_V, 1, 0)
    this.sink.columns({ count, time_s, current_A, voltage_V })
    this.rows += count
    this.rest = bytes.slice(count * rowBytes)
  }

  /** Throws Error when the source ended before the rows it states, or in the middle of a number. */
  end(): void {
    const { rows } = this.plan
    if (rows !== null && this.rows < rows)
      throw new Error(`the source ends after ${this.rows} of ${rows} rows`)
    if (rows === null && this.rest.length > 0)
      throw new Error(`the source ends in the middle of a number, ${this.rest.length} bytes too many`)
  }
}

/** A .npy header (version 1.0) for a float64 table of rows × columns. */
export function npyHeader(rows: number, columns: number): Uint8Array {
  const text = `{'descr': '<f8', 'fortran_order': False, 'shape': (${rows}, ${columns}), }`
  const length = Math.ceil((10 + text.length + 1) / 64) * 64
  const bytes = new Uint8Array(length).fill(32)
  bytes.set([...NPY_MAGIC, 1, 0, (length - 10) & 0xff, (length - 10) >> 8])
  bytes.set(new TextEncoder().encode(text), 10)
  bytes[length - 1] = 10
  return bytes
}
