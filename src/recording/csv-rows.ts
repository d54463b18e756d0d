/**
 * The rows of a CSV text to columns, byte by byte. This is the loop that a whole import waits for: lines of plain
 * numbers, up to nine digits on each side of the mark, are read in place with integer arithmetic and make no strings
 * and no objects. Every other line goes to the careful reader (csv-line.ts).
 */
import { readLine } from './csv-line.ts'
import { POWERS_OF_TEN } from './csv-number.ts'
import type { ColumnPlan, RowPlan } from './csv-row-plan.ts'

export interface DamagedLine {
  /** Lines after the first of this text, from 0. */
  readonly line: number
  /** Samples read before it. */
  readonly sample: number
  readonly text: string
}

export interface Rows {
  count: number
  /** Lines gone through, whatever they held. */
  lines: number
  readonly time_s: Float64Array | null
  readonly current_A: Float32Array
  readonly voltage_V: Float32Array | null
  /** The first thousand of them, and how many there are. */
  readonly damaged: DamagedLine[]
  damagedLines: number
}

/** Damaged lines kept with their text, of one piece. */
const DAMAGED_KEPT = 1000
const LINE_END = 10
const RETURN = 13
const SPACE = 32
const QUOTE = 34
const MINUS = 45
/** High halves of four digit bytes, with the carry of a byte above 0x39 folded in below. */
const DIGITS = 0x33333333

/** Room for the rows that a text of so many bytes can hold at most: a digit and an end of line each. */
export function rowsFor(bytes: number, plan: RowPlan): Rows {
  const most = Math.ceil(bytes / 2) + 1
  const has = (role: ColumnPlan['role']) => plan.columns.some((column) => column.role === role)
  return {
    count: 0,
    lines: 0,
    time_s: has('time') ? new Float64Array(most) : null,
    current_A: new Float32Array(most),
    voltage_V: has('voltage') ? new Float32Array(most) : null,
    damaged: [],
    damagedLines: 0,
  }
}

/**
 * Reads bytes[from … to − 1] into `rows` from its start. The text is whole lines, and its last byte ends the last of
 * them: that byte stops every loop below, so none needs to look for the end of the text.
 */
export function readRows(bytes: Uint8Array, from: number, to: number, plan: RowPlan, rows: Rows): void {
  if (to > from && bytes[to - 1] !== LINE_END) throw new Error('rows are read from whole lines only')
  const { separator, merge, mark, columns } = plan
  const wanted = columns.length
  const indices = Int32Array.from(columns, (column) => column.index)
  // Divisors of each column by the number of decimals, its unit included.
  const divisors = columns.map((column) => POWERS_OF_TEN.subarray(Math.max(-column.shift, 0)))
  const quick =
    separator !== mark &&
    columns.every((column) => column.kind === 'number' && column.shift <= 0 && column.shift >= -12)
  const factors = Float64Array.from(columns, (column) => column.factor)
  const origins = Float64Array.from(columns, (column) => column.origin)
  const values = new Float64Array(3)
  const timeAt = columns.findIndex((column) => column.role === 'time')
  const currentAt = columns.findIndex((column) => column.role === 'current')
  const voltageAt = columns.findIndex((column) => column.role === 'voltage')
  const { time_s, current_A, voltage_V } = rows
  const words = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const lastWord = bytes.length - 4
  rows.damaged.length = 0
  rows.damagedLines = 0
  let count = 0
  let lines = 0
  let p = from

  while (p < to) {
    const lineStart = p
    lines++
    let column = 0
    let read = 0
    if (quick)
      for (; read < wanted; read++) {
        let c = bytes[p]
        if (merge) while (c === separator) c = bytes[++p]
        while (column < indices[read]) {
          if (c === separator) {
            column++
            if (merge) while (bytes[p + 1] === separator) p++
          } else if (c === LINE_END || c === QUOTE) break
          c = bytes[++p]
        }
        if (column < indices[read]) break
        while (c === SPACE) c = bytes[++p]
        const negative = c === MINUS
        if (negative) p++
        let whole = 0
        const wholeStart = p
        let digit = bytes[p] - 48
        while (digit >>> 0 <= 9) {
          whole = (Math.imul(whole, 10) + digit) | 0
          digit = bytes[++p] - 48
        }
        const wholeDigits = p - wholeStart
        let fraction = 0
        let decimals = 0
        if (digit === mark - 48) {
          const fractionStart = ++p
          if (p <= lastWord) {
            // Four digits at once: each byte is 0x30 … 0x39, and pairs are folded into tens, then hundreds.
            const word = words.getInt32(p, true)
            if (((word & 0xf0f0f0f0) | (((word + 0x06060606) & 0xf0f0f0f0) >>> 4)) === DIGITS) {
              const ones = word & 0x0f0f0f0f
              const tens = (Math.imul(ones, 10) + (ones >>> 8)) & 0x00ff00ff
              fraction = (Math.imul(tens, 100) + (tens >>> 16)) & 0xffff
              p += 4
            }
          }
          digit = bytes[p] - 48
          while (digit >>> 0 <= 9) {
            fraction = (Math.imul(fraction, 10) + digit) | 0
            digit = bytes[++p] - 48
          }
          decimals = p - fractionStart
        }
        c = digit + 48
        if (c !== separator && c !== LINE_END && c !== RETURN) break
        if (wholeDigits > 9 || decimals > 9 || wholeDigits + decimals > 15 || wholeDigits + decimals === 0)
          break
        const size = ((whole * POWERS_OF_TEN[decimals] + fraction) / divisors[read][decimals]) * factors[read]
        values[read] = (negative ? -size : size) - origins[read]
      }
    if (read === wanted) {
      if (bytes[p] === RETURN) p++
      if (bytes[p] !== LINE_END) p = bytes.indexOf(LINE_END, p)
      p++
      if (time_s !== null) time_s[count] = values[timeAt]
      if (voltage_V !== null) voltage_V[count] = values[voltageAt]
      current_A[count++] = values[currentAt]
      continue
    }
    p = bytes.indexOf(LINE_END, lineStart) + 1
    const line = readLine(bytes, lineStart, p - 1, plan)
    if (line.damaged) {
      rows.damagedLines++
      if (rows.damaged.length < DAMAGED_KEPT)
        rows.damaged.push({ line: lines - 1, sample: count, text: excerpt(bytes, lineStart, p - 1) })
    }
    if (line.sample === null) continue
    if (time_s !== null) time_s[count] = line.sample.time_s
    if (voltage_V !== null) voltage_V[count] = line.sample.voltage_V
    current_A[count++] = line.sample.current_A
  }
  rows.count = count
  rows.lines = lines
}

function excerpt(bytes: Uint8Array, from: number, to: number): string {
  return new TextDecoder().decode(bytes.subarray(from, Math.min(to, from + 80))).trimEnd()
}
