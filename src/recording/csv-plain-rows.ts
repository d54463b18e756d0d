/**
 * Rows of plain numbers, up to 15 digits, perhaps with an exponent, read in place with integer arithmetic: no strings
 * and no objects are made.
 */
import { E_LOW, LINE_END, MINUS, PLUS, QUOTE, RETURN, SPACE } from './csv-byte-codes.ts'
import { POWERS_OF_TEN } from './csv-number.ts'
import { ROLES, type RowPlan } from './csv-row-plan.ts'
import type { Rows } from './csv-row-room.ts'
import { OVERLOAD_POWER } from './overload.ts'

/** High halves of four digit bytes, with the carry of a byte above 0x39 folded in below. */
const DIGITS = 0x33333333
const LOWER_CASE = 0x20
/** So many digits are an exact double, and so is ten to this power: one step between them rounds once (csv-number.ts). */
const MOST_DIGITS = 15
const MOST_POWER = 22

export class PlainRows {
  private readonly plan: RowPlan
  private readonly values = new Float64Array(ROLES.length)
  private readonly indices: Int32Array
  private readonly roles: Int32Array
  private readonly shifts: Int32Array
  private readonly factors: Float64Array
  private readonly origins: Float64Array

  constructor(plan: RowPlan) {
    const { columns } = plan
    this.plan = plan
    this.indices = Int32Array.from(columns, (column) => column.index)
    this.roles = Int32Array.from(columns, (column) => ROLES.indexOf(column.role))
    this.shifts = Int32Array.from(columns, (column) => column.shift)
    this.factors = Float64Array.from(columns, (column) => column.factor)
    this.origins = Float64Array.from(columns, (column) => column.origin)
  }

  /**
   * Adds up to `most` rows from `from` on to `rows`, until one is not plain or the text ends at `to`, and says where the
   * next one starts. The last byte of the text ends a line: it stops every loop below, so none needs to look for `to`.
   */
  read(bytes: Uint8Array, words: DataView, from: number, to: number, most: number, rows: Rows): number {
    const { values, indices, roles, shifts, factors, origins } = this
    const { separator, merge, mark } = this.plan
    const { time_s, current_A, voltage_V } = rows
    const wanted = indices.length
    const lastWord = words.byteLength - 4
    let count = rows.count
    const full = count + most
    let start = from
    while (start < to && count < full) {
      let p = start
      let column = 0
      let read = 0
      if (indices[0] > 0 && this.mayBeComment(bytes, p)) break
      if (merge) while (bytes[p] === separator) p++
      for (; read < wanted; read++) {
        let c = bytes[p]
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
        let power = shifts[read] - decimals
        if ((c | LOWER_CASE) === E_LOW) {
          c = bytes[++p]
          const down = c === MINUS
          if (down || c === PLUS) c = bytes[++p]
          const first = p
          let exponent = 0
          for (; (c - 48) >>> 0 <= 9; c = bytes[++p]) exponent = Math.min(exponent * 10 + c - 48, 999)
          if (p === first) break
          power += down ? -exponent : exponent
          // What may be a code for overload is left to the careful reader (overload.ts).
          if (!down && exponent + wholeDigits > OVERLOAD_POWER) break
        }
        const ended = c === separator || c === LINE_END || (c === RETURN && bytes[p + 1] === LINE_END)
        const digits = wholeDigits + decimals
        if (!ended || digits === 0 || digits > MOST_DIGITS || power > MOST_POWER || power < -MOST_POWER) break
        if (wholeDigits > 9) whole = longNumber(bytes, wholeStart, wholeDigits)
        if (decimals > 9) fraction = longNumber(bytes, wholeStart + wholeDigits + 1, decimals)
        const mantissa = whole * POWERS_OF_TEN[decimals] + fraction
        const size = power < 0 ? mantissa / POWERS_OF_TEN[-power] : mantissa * POWERS_OF_TEN[power]
        values[roles[read]] = (negative ? -size : size) * factors[read] - origins[read]
      }
      if (read < wanted) break
      if (bytes[p] === RETURN) p++
      start = (bytes[p] === LINE_END ? p : bytes.indexOf(LINE_END, p)) + 1
      if (time_s !== null) time_s[count] = values[0]
      if (voltage_V !== null) voltage_V[count] = values[2]
      current_A[count++] = values[1]
    }
    rows.count = count
    return start
  }

  /** Only a wanted first column shows by itself that a line is none. */
  private mayBeComment(bytes: Uint8Array, start: number): boolean {
    let p = start
    while (bytes[p] <= SPACE && bytes[p] !== LINE_END) p++
    return this.plan.comments.includes(bytes[p])
  }
}

/** Digits that are too many for an int32. */
function longNumber(bytes: Uint8Array, at: number, digits: number): number {
  let number = 0
  for (let p = at; p < at + digits; p++) number = number * 10 + bytes[p] - 48
  return number
}

/** Whether every wanted value of a text may be a plain number. */
export function isPlain({ separator, mark, columns }: RowPlan): boolean {
  return (
    separator !== mark &&
    columns.every((column) => column.kind === 'number' && column.shift <= 0 && column.shift >= -12)
  )
}
