/**
 * One row of plain numbers, up to nine digits on each side of the mark, read byte by byte with integer arithmetic: no
 * strings and no objects are made.
 */
import { LINE_END, MINUS, QUOTE, RETURN, SPACE } from './csv-byte-codes.ts'
import { POWERS_OF_TEN } from './csv-number.ts'
import { ROLES, type RowPlan } from './csv-row-plan.ts'

/** High halves of four digit bytes, with the carry of a byte above 0x39 folded in below. */
const DIGITS = 0x33333333

/** What is read into `values`, ordered as `ROLES`; a row without some of them leaves their places alone. */
export class PlainRow {
  readonly values: Float64Array
  private readonly plan: RowPlan
  private readonly indices: Int32Array
  private readonly roles: Int32Array
  /** Divisors of each column by the number of decimals, its unit included. */
  private readonly divisors: readonly Float64Array[]
  private readonly factors: Float64Array
  private readonly origins: Float64Array

  constructor(plan: RowPlan, values: Float64Array) {
    const { columns } = plan
    this.plan = plan
    this.values = values
    this.indices = Int32Array.from(columns, (column) => column.index)
    this.roles = Int32Array.from(columns, (column) => ROLES.indexOf(column.role))
    this.divisors = columns.map((column) => POWERS_OF_TEN.subarray(Math.max(-column.shift, 0)))
    this.factors = Float64Array.from(columns, (column) => column.factor)
    this.origins = Float64Array.from(columns, (column) => column.origin)
  }

  /**
   * Where the line from `p` on ends, or −1 when it is not plain. The last byte of the text must end a line: that byte
   * stops every loop below, so none needs to look for the end of the text.
   */
  read(bytes: Uint8Array, words: DataView, p: number): number {
    const { values, indices, roles, divisors, factors, origins } = this
    const { separator, merge, mark } = this.plan
    const wanted = indices.length
    const lastWord = words.byteLength - 4
    let column = 0
    if (merge) while (bytes[p] === separator) p++
    for (let read = 0; read < wanted; read++) {
      let c = bytes[p]
      while (column < indices[read]) {
        if (c === separator) {
          column++
          if (merge) while (bytes[p + 1] === separator) p++
        } else if (c === LINE_END || c === QUOTE) return -1
        c = bytes[++p]
      }
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
      const ended = c === separator || c === LINE_END || (c === RETURN && bytes[p + 1] === LINE_END)
      if (!ended) return -1
      const digits = wholeDigits + decimals
      if (wholeDigits > 9 || decimals > 9 || digits > 15 || digits === 0) return -1
      const size = ((whole * POWERS_OF_TEN[decimals] + fraction) / divisors[read][decimals]) * factors[read]
      values[roles[read]] = (negative ? -size : size) - origins[read]
    }
    return bytes[p] === LINE_END ? p : bytes.indexOf(LINE_END, p)
  }
}

/** Whether every wanted value of a text may be a plain number. */
export function isPlain({ separator, mark, columns }: RowPlan): boolean {
  return (
    separator !== mark &&
    columns.every((column) => column.kind === 'number' && column.shift <= 0 && column.shift >= -12)
  )
}
