/**
 * Runs of rows written alike: as long as a row measured before them, with every mark, sign and separator in the same
 * place. Where each digit stands is then known, so a few dozen rows are gone through at a time, place by place: what must
 * be the same in all of them, then each number (csv-alike-columns.ts).
 */
import { MOST_DIGITS, type NumberForm, rowsInside, rowsOfNumbers, rowsWith } from './csv-alike-columns.ts'
import { LINE_END, MINUS, QUOTE, RETURN, SPACE } from './csv-byte-codes.ts'
import { POWERS_OF_TEN } from './csv-number.ts'
import type { ColumnPlan, RowPlan } from './csv-row-plan.ts'
import type { Rows } from './csv-row-room.ts'

/** Bytes gone through at a time: few, so that they stay in the fastest cache and the compiler sees many calls. */
const STRETCH = 2048
/** With 15 digits a number is still an exact double. */
const MOST_TOGETHER = 15
const ZERO = 48

/** Places are bytes after the start of a row. */
interface AlikeNumber extends NumberForm {
  readonly role: ColumnPlan['role']
  readonly wholeEnd: number
  readonly decimalsEnd: number
}

export class AlikeRows {
  private readonly plan: RowPlan
  private row: Uint8Array = new Uint8Array(0)
  private numbers: AlikeNumber[] = []
  /** Places, but for the ends of digits, that hold the same byte in every row. */
  private fixed: number[] = []
  /** Places in columns that are not wanted. */
  private free: number[] = []

  constructor(plan: RowPlan) {
    this.plan = plan
  }

  /** Takes the row from `start` on as the one that others are alike to; false when it is not one for that. */
  measure(bytes: Uint8Array, start: number): boolean {
    const { separator, comments, columns } = this.plan
    this.row = bytes.subarray(start, bytes.indexOf(LINE_END, start) + 1)
    this.numbers = []
    this.fixed = []
    this.free = []
    const { row } = this
    // Few longer rows would fit a stretch; quotes, and lines that may be comments, are left to other readers.
    if (row.length > STRETCH / 8 || row.includes(QUOTE)) return false
    if (columns[0].index > 0 && (row[0] <= SPACE || comments.includes(row[0]))) return false
    let p: number | null = 0
    for (const [k, column] of columns.entries()) {
      p = this.measureGap(p, k > 0 ? column.index - columns[k - 1].index - 1 : column.index)
      if (p !== null) p = this.measureNumber(p, column, k === columns.length - 1)
      if (p === null) return false
    }
    for (; p < row.length; p++) (row[p] === separator || row[p] < SPACE ? this.fixed : this.free).push(p)
    return true
  }

  /** Passes over so many more separators from `p` on; null when the row has no more of them. */
  private measureGap(p: number, separators: number): number | null {
    const { row } = this
    const { separator, merge } = this.plan
    let passed = 0
    while (passed < separators) {
      if (row[p] === LINE_END) return null
      const separates = row[p] === separator
      if (separates && !(merge && row[p - 1] === separator)) passed++
      ;(separates ? this.fixed : this.free).push(p++)
    }
    return p
  }

  /** Passes over the number from `p` on and the byte that ends it; null when it is none of plain digits. */
  private measureNumber(p: number, column: ColumnPlan, last: boolean): number | null {
    const { row } = this
    const { separator, mark } = this.plan
    const { role, shift, factor, origin } = column
    while (row[p] === SPACE) this.fixed.push(p++)
    const negative = row[p] === MINUS
    if (negative) this.fixed.push(p++)
    const whole = digitsFrom(row, p)
    const wholeEnd = p + whole
    const marked = row[wholeEnd] === mark
    const decimals = marked ? digitsFrom(row, wholeEnd + 1) : 0
    const decimalsEnd = marked ? wholeEnd + 1 + decimals : wholeEnd
    const afterDecimals = row[decimalsEnd]
    const lineEnds =
      afterDecimals === LINE_END || (afterDecimals === RETURN && row[decimalsEnd + 1] === LINE_END)
    const digits = whole + decimals
    if (afterDecimals !== separator && !(last && lineEnds)) return null
    if (digits === 0 || digits > MOST_TOGETHER || Math.max(whole, decimals) > MOST_DIGITS) return null
    this.numbers.push({
      role,
      whole,
      decimals,
      wholeEnd,
      decimalsEnd,
      afterWhole: row[wholeEnd],
      afterDecimals,
      power: POWERS_OF_TEN[decimals],
      divisor: POWERS_OF_TEN[decimals - shift],
      factor: negative ? -factor : factor,
      origin,
    })
    return decimalsEnd + 1
  }

  /**
   * Adds rows from `from` on to `rows` until one is not alike or would not end before `to`, and says where that one
   * starts. `words` sees the same bytes.
   */
  read(bytes: Uint8Array, words: DataView, from: number, to: number, rows: Rows): number {
    const { length } = this.row
    const most = Math.floor(STRETCH / length)
    let start = from
    // Words are looked at that begin up to eight bytes before the end of a number.
    while (start >= 8) {
      const asked = Math.min(most, Math.floor((to - start) / length))
      const count = this.readStretch(bytes, words, start, asked, rows)
      rows.count += count
      start += count * length
      if (count < most) break
    }
    return start
  }

  /** How many of the `asked` rows from `start` on are alike; their values are put behind those in `rows`. */
  private readStretch(bytes: Uint8Array, words: DataView, start: number, asked: number, rows: Rows): number {
    const { row, free, numbers } = this
    const { separator } = this.plan
    const { length } = row
    let count = asked
    for (const place of this.fixed) count = rowsWith(bytes, start + place, length, count, row[place])
    for (const place of free) count = rowsInside(bytes, start + place, length, count, separator)
    if (free[0] === 0) count = this.rowsStarting(bytes, start, count)
    for (const number of numbers) {
      const into = { time: rows.time_s, current: rows.current_A, voltage: rows.voltage_V, day: null }[
        number.role
      ]
      if (into === null) throw new Error(`rows have no room for the ${number.role} that they hold`)
      const [whole, decimals] = [start + number.wholeEnd, start + number.decimalsEnd]
      count = rowsOfNumbers(bytes, words, whole, decimals, length, count, number, into, rows.count)
    }
    return count
  }

  /** Rows that start neither with a blank nor a comment. */
  private rowsStarting(bytes: Uint8Array, start: number, count: number): number {
    const { comments } = this.plan
    for (let i = 0; i < count; i++) {
      const c = bytes[start + i * this.row.length]
      if (c <= SPACE || comments.includes(c)) return i
    }
    return count
  }
}

function digitsFrom(bytes: Uint8Array, at: number): number {
  let p = at
  while ((bytes[p] - ZERO) >>> 0 <= 9) p++
  return p - at
}
