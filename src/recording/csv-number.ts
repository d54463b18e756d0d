/**
 * Decimal numbers straight from bytes, correctly rounded: with at most 15 digits and a power of ten up to 22 both are
 * exact doubles, and one multiplication or division rounds once (Clinger 1990); anything longer goes through a string.
 */
import { E_LOW, MINUS, PLUS, POINT } from './csv-byte-codes.ts'

export const POWERS_OF_TEN = Float64Array.from({ length: 23 }, (_, k) => Number(`1e${k}`))

const E_HIGH = 69
const decoder = new TextDecoder('latin1')

/** x times 10^shift, rounded once: a power of ten is exact and its inverse is not. */
export const shifted = (x: number, shift: number): number => (shift < 0 ? x / 10 ** -shift : x * 10 ** shift)

const isDigit = (c: number): boolean => c >= 48 && c <= 57

/**
 * The number in bytes[from … to − 1] times 10^shift, or NaN when that is no number. `mark`: byte of the decimal mark.
 * Spaces around it are allowed.
 */
export function parseNumber(
  bytes: Uint8Array,
  from: number,
  to: number,
  mark: number,
  shift: number,
): number {
  while (from < to && bytes[from] <= 32) from++
  while (to > from && bytes[to - 1] <= 32) to--
  let at = from
  const negative = bytes[at] === MINUS
  if (negative || bytes[at] === PLUS) at++
  let mantissa = 0
  let digits = 0
  let scale = 0
  const start = at
  while (at < to && isDigit(bytes[at])) {
    mantissa = mantissa * 10 + bytes[at++] - 48
    if (mantissa > 0) digits++
  }
  let seen = at - start
  if (at < to && (bytes[at] === mark || bytes[at] === POINT)) {
    at++
    const fraction = at
    while (at < to && isDigit(bytes[at])) {
      mantissa = mantissa * 10 + bytes[at++] - 48
      if (mantissa > 0) digits++
    }
    scale = at - fraction
    seen += scale
  }
  if (seen === 0) return Number.NaN
  let exponent = 0
  if (at < to && (bytes[at] === E_LOW || bytes[at] === E_HIGH)) {
    at++
    const down = bytes[at] === MINUS
    if (down || bytes[at] === PLUS) at++
    const first = at
    while (at < to && isDigit(bytes[at])) exponent = Math.min(exponent * 10 + bytes[at++] - 48, 9999)
    if (at === first) return Number.NaN
    if (down) exponent = -exponent
  }
  if (at !== to) return Number.NaN
  const power = exponent - scale + shift
  const size = digits <= 15 ? scaled(mantissa, power) : null
  if (size !== null) return negative ? -size : size
  return throughText(bytes, from, to, mark, shift)
}

function scaled(mantissa: number, power: number): number | null {
  if (mantissa === 0) return 0
  if (power < -22 || power > 22) return null
  return power < 0 ? mantissa / POWERS_OF_TEN[-power] : mantissa * POWERS_OF_TEN[power]
}

function throughText(bytes: Uint8Array, from: number, to: number, mark: number, shift: number): number {
  const text = decoder.decode(bytes.subarray(from, to)).toLowerCase()
  const plain = mark === POINT ? text : text.replace(String.fromCharCode(mark), '.')
  const [mantissa, exponent = '0'] = plain.split('e')
  return Number(`${mantissa}e${Number(exponent) + shift}`)
}
