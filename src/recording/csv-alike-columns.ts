/**
 * One byte or one number of every row, in rows of one length: `count` of them, `length` bytes apart. Each function says
 * how many of them are as they should be before the first that is not.
 *
 * A whole import waits for these loops. None has another inside, so that the compiler does once what is the same for
 * all rows; constants of other modules are taken before a loop for the same reason.
 */
import { LINE_END, QUOTE } from './csv-byte-codes.ts'

/** Digits on either side of a mark: two words of four bytes. */
export const MOST_DIGITS = 8

const ZEROS = 0x30303030
/** Added to four digits, this carries into the high half of any byte above nine. */
const ABOVE_NINE = 0x06060606
const HIGH_HALVES = 0xf0f0f0f0

/** How a number is written and what it stands for: (whole · `power` + decimals) / `divisor` · `factor` − `origin`. */
export interface NumberForm {
  /** Digits before the mark and after it, at most `MOST_DIGITS` each. */
  readonly whole: number
  readonly decimals: number
  /** The bytes that follow them: the mark and what ends the number, or the latter twice. */
  readonly afterWhole: number
  readonly afterDecimals: number
  readonly power: number
  readonly divisor: number
  readonly factor: number
  readonly origin: number
}

/** Rows with `byte` at place `at` of the text and every `length` bytes after it. */
export function rowsWith(bytes: Uint8Array, at: number, length: number, count: number, byte: number): number {
  for (let i = 0, p = at; i < count; i++, p += length) if (bytes[p] !== byte) return i
  return count
}

/** Rows with a byte there that ends neither a column nor a row, nor starts a quoted text. */
export function rowsInside(
  bytes: Uint8Array,
  at: number,
  length: number,
  count: number,
  separator: number,
): number {
  const lineEnd = LINE_END
  const quote = QUOTE
  for (let i = 0, p = at; i < count; i++, p += length) {
    const c = bytes[p]
    if (c === separator || c === lineEnd || c === quote) return i
  }
  return count
}

/**
 * Rows with a number there, which are written into `into` from place `first` on. `wholeEnd` and `decimalsEnd`: where its
 * digits end in the first row, not before byte 8 of the text; `words` sees the same bytes.
 */
export function rowsOfNumbers(
  bytes: Uint8Array,
  words: DataView,
  wholeEnd: number,
  decimalsEnd: number,
  length: number,
  count: number,
  form: NumberForm,
  into: Float64Array | Float32Array,
  first: number,
): number {
  const { whole, decimals, afterWhole, afterDecimals, power, divisor, factor, origin } = form
  const nearMask = lastBytes(whole)
  const farMask = lastBytes(whole - 4)
  const decimalsNearMask = lastBytes(decimals)
  const decimalsFarMask = lastBytes(decimals - 4)
  for (let i = 0, p = wholeEnd, q = decimalsEnd; i < count; i++, p += length, q += length) {
    const near = (words.getInt32(p - 4, true) ^ ZEROS) & nearMask
    const far = (words.getInt32(p - 8, true) ^ ZEROS) & farMask
    const decimalsNear = (words.getInt32(q - 4, true) ^ ZEROS) & decimalsNearMask
    const decimalsFar = (words.getInt32(q - 8, true) ^ ZEROS) & decimalsFarMask
    let wrong = near | (near + ABOVE_NINE) | far | (far + ABOVE_NINE)
    wrong |= decimalsNear | (decimalsNear + ABOVE_NINE) | decimalsFar | (decimalsFar + ABOVE_NINE)
    if ((wrong & HIGH_HALVES) !== 0 || bytes[p] !== afterWhole || bytes[q] !== afterDecimals) return i
    const above = fourDigits(far) * 10000 + fourDigits(near)
    const below = fourDigits(decimalsFar) * 10000 + fourDigits(decimalsNear)
    into[first + i] = ((above * power + below) / divisor) * factor - origin
  }
  return count
}

/** The number of four digits, the first of them in the lowest byte: pairs are folded into tens, then hundreds. */
function fourDigits(digits: number): number {
  const tens = (digits * 10 + (digits >>> 8)) & 0x00ff00ff
  return (tens * 100 + (tens >>> 16)) & 0xffff
}

/** The n last bytes of a word, which are its highest: there stand the digits that end with it. */
function lastBytes(n: number): number {
  return n <= 0 ? 0 : -1 << (32 - 8 * Math.min(n, 4))
}
