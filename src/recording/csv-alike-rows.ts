/**
 * Runs of rows written alike: every number has as many digits before and after the mark as in a row measured before
 * them. Where each digit stands is then known, so that digits are checked and added up four bytes at a time. This is
 * the loop that a whole import waits for.
 */
import { LINE_END, MINUS, RETURN, SPACE } from './csv-byte-codes.ts'
import { POWERS_OF_TEN } from './csv-number.ts'
import { ROLES, type RowPlan } from './csv-row-plan.ts'
import type { Rows } from './csv-row-room.ts'

/** Digits on either side of the mark: two words of four bytes. */
const MOST_DIGITS = 8
/** With 15 digits a number is still an exact double. */
const MOST_TOGETHER = 15
/** Columns up to the last wanted one, all of which have to be alike. */
const MOST_COLUMNS = 16

const ZERO = 48
const ZEROS = 0x30303030
/** Added to four digits, this carries into the high half of any byte above nine. */
const ABOVE_NINE = 0x06060606
const HIGH_HALVES = 0xf0f0f0f0

/** The n highest bytes of a word: there the digits stand that end with the word. */
const highBytes = (n: number): number => (n <= 0 ? 0 : -1 << (32 - 8 * Math.min(n, 4)))

// What is known of each column, a stride apart; few arrays, because each takes registers that the loop is short of.
const STRIDE = 8
const WHOLE_DIGITS = 0
/** Bytes from the mark on; 0 without a mark. */
const TAIL = 1
const WHOLE_NEAR = 2
const WHOLE_FAR = 3
const TAIL_NEAR = 4
const TAIL_FAR = 5
/** Byte that follows the number. */
const END = 6
const ROLE = 7
const POWER = 0
const DIVISOR = 1
const FACTOR = 2
const ORIGIN = 3

export class AlikeRows {
  private readonly plan: RowPlan
  /** Of the latest row, in the order of `ROLES`, with one place more for what is not wanted. */
  private readonly values = new Float64Array(ROLES.length + 1)
  private readonly places: Int32Array
  private readonly scales: Float64Array

  constructor(plan: RowPlan) {
    const columns = Math.max(...plan.columns.map((column) => column.index)) + 1
    this.plan = plan
    this.places = new Int32Array(columns * STRIDE)
    this.scales = new Float64Array(columns * STRIDE)
  }

  /** Measures the row from `p` on: whether it is one of plain numbers up to its last wanted column, and of which length. */
  measure(bytes: Uint8Array, p: number): boolean {
    const { separator, mark } = this.plan
    if (this.places.length > MOST_COLUMNS * STRIDE) return false
    for (let k = 0; k < this.places.length; k += STRIDE) {
      while (bytes[p] === SPACE) p++
      if (bytes[p] === MINUS) p++
      const whole = digitsFrom(bytes, p)
      p += whole
      const decimals = bytes[p] === mark ? digitsFrom(bytes, p + 1) : 0
      const tail = bytes[p] === mark ? decimals + 1 : 0
      p += tail
      const end = bytes[p++]
      const last = k + STRIDE === this.places.length
      const ended = end === separator || (last && (end === LINE_END || end === RETURN))
      const digits = whole + decimals
      if (!ended || digits === 0 || digits > MOST_TOGETHER) return false
      if (whole > MOST_DIGITS || decimals > MOST_DIGITS) return false
      this.keep(k, whole, tail, decimals, end)
    }
    return true
  }

  private keep(k: number, whole: number, tail: number, decimals: number, end: number): void {
    const near = [highBytes(whole), highBytes(whole - 4), highBytes(decimals), highBytes(decimals - 4)]
    const wanted = this.plan.columns.find((column) => column.index * STRIDE === k)
    const role = wanted ? ROLES.indexOf(wanted.role) : ROLES.length
    this.places.set([whole, tail, ...near, end, role], k)
    const { shift = 0, factor = 1, origin = 0 } = wanted ?? {}
    this.scales.set([POWERS_OF_TEN[decimals], POWERS_OF_TEN[decimals - shift], factor, origin], k)
  }

  /**
   * Adds rows from `from` on to `rows` until one is not alike or starts at `until` or later, and says where that one
   * starts. `words` sees the same bytes. The end of the last line is where a digit should be for any number that would
   * reach beyond it, so none does.
   */
  read(bytes: Uint8Array, words: DataView, from: number, until: number, rows: Rows): number {
    const { places, scales, values } = this
    const { mark } = this.plan
    const { time_s, current_A, voltage_V } = rows
    const length = places.length
    const lastEnd = places[length - STRIDE + END]
    let count = rows.count
    let start = from
    // Words are looked at that begin up to eight bytes before the end of a number.
    while (start < until && start >= 8) {
      let p = start
      let k = 0
      for (; k < length; k += STRIDE) {
        let c = bytes[p]
        if (c < ZERO) {
          while (c === SPACE) c = bytes[++p]
          if (c === MINUS) p++
        }
        const point = p + places[k + WHOLE_DIGITS]
        const end = point + places[k + TAIL]
        if (bytes[end] !== places[k + END] || (point !== end && bytes[point] !== mark)) break
        const near = (words.getInt32(point - 4, true) ^ ZEROS) & places[k + WHOLE_NEAR]
        const tailNear = (words.getInt32(end - 4, true) ^ ZEROS) & places[k + TAIL_NEAR]
        const tailFar = (words.getInt32(end - 8, true) ^ ZEROS) & places[k + TAIL_FAR]
        let wrong = near | (near + ABOVE_NINE) | tailNear | (tailNear + ABOVE_NINE)
        wrong |= tailFar | (tailFar + ABOVE_NINE)
        let whole = fourDigits(near)
        if (places[k + WHOLE_FAR] !== 0) {
          const far = (words.getInt32(point - 8, true) ^ ZEROS) & places[k + WHOLE_FAR]
          wrong |= far | (far + ABOVE_NINE)
          whole += Math.imul(fourDigits(far), 10000)
        }
        if ((wrong & HIGH_HALVES) !== 0) break
        const tail = Math.imul(fourDigits(tailFar), 10000) + fourDigits(tailNear)
        const size = ((whole * scales[k + POWER] + tail) / scales[k + DIVISOR]) * scales[k + FACTOR]
        values[places[k + ROLE]] = (c === MINUS ? -size : size) - scales[k + ORIGIN]
        p = end + 1
      }
      if (k < length) break
      if (lastEnd === RETURN && bytes[p] !== LINE_END) break
      if (lastEnd !== LINE_END) while (bytes[p++] !== LINE_END);
      start = p
      if (time_s !== null) time_s[count] = values[0]
      if (voltage_V !== null) voltage_V[count] = values[2]
      current_A[count++] = values[1]
    }
    rows.count = count
    return start
  }
}

function digitsFrom(bytes: Uint8Array, at: number): number {
  let p = at
  while ((bytes[p] - ZERO) >>> 0 <= 9) p++
  return p - at
}

/** The number of four digits, the first of them in the lowest byte: pairs are folded into tens, then hundreds. */
function fourDigits(digits: number): number {
  const tens = (Math.imul(digits, 10) + (digits >>> 8)) & 0x00ff00ff
  return (Math.imul(tens, 100) + (tens >>> 16)) & 0xffff
}
