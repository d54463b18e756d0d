/**
 * A number with its tolerance. The grammar, where a unit may be written once for the whole:
 *   0.7 mA            exact
 *   0.7 mA ± 0.1 mA   also +/-; 25 mA ± 10 % is relative, but 90 % ± 5 % are percentage points
 *   20..35 mA         anywhere between
 *   < 10 mA           anywhere from zero to the limit
 *   4 s [2 s, 9 s]    median and central 90 % interval
 */
import type { Dimension } from './dimension.ts'
import { type Part, readPart, valueOfPart } from './part.ts'
import { failed, type Parsed, parsed, type QuantityProblem } from './problem.ts'
import { shareUnits } from './share-units.ts'
import type { Uncertain } from './uncertain.ts'
import { findUnit, toBase } from './unit.ts'

/** What was read, before it is known to make sense. */
type Values = Parsed<readonly number[]>

/** `text` as an uncertain number in base units of `dimension`. Never throws; see the grammar above. */
export function parseUncertain(text: string, dimension: Dimension): Parsed<Uncertain> {
  const limit = /^\s*</.exec(text)
  if (limit !== null) return readLimit(text, limit[0].length, dimension)
  const interval = /^([^[\]]*)\[([^[\],]*),([^[\],]*)\]\s*$/.exec(text)
  if (interval !== null) return readInterval(text, interval, dimension)
  if (/[[\]]/.test(text))
    return failed(malformed(text, 'an interval has two ends in brackets', 'write it as in "4 s [2 s, 9 s]"'))
  const tolerance = /±|\+\/[-−]|\+[-−]/.exec(text)
  if (tolerance !== null) return readTolerance(text, tolerance.index, tolerance[0].length, dimension)
  const dots = text.indexOf('..')
  if (dots >= 0) return readRange(text, dots, dimension)
  const exact = readPart(text, 0, text.length, dimension)
  if (!exact.ok) return exact
  const value = valueOfPart(exact.value, dimension)
  return value.ok ? parsed({ kind: 'exact', value: value.value }) : value
}

function readLimit(text: string, from: number, dimension: Dimension): Parsed<Uncertain> {
  if (dimension === 'temperature')
    return failed(malformed(text, '0 °C is no natural lower end', 'write a range, as in "-10..20 °C"'))
  const read = readAll(text, [[from, text.length]], dimension)
  if (!read.ok) return read
  const [limit] = read.value
  if (limit > 0) return parsed({ kind: 'below', limit })
  return failed({
    ...whole(text),
    code: 'limit-not-positive',
    message: `nothing lies between zero and a limit of ${text.slice(from).trim()}`,
    expected: 'a limit above zero, as in "< 10 mA"',
    cure: 'write the smallest value that the instrument would have shown',
  })
}

function readInterval(text: string, found: RegExpExecArray, dimension: Dimension): Parsed<Uncertain> {
  const [, typicalText, lowText, highText] = found
  const low = typicalText.length + 1
  const high = low + lowText.length + 1
  const places: [number, number][] = [
    [0, typicalText.length],
    [low, low + lowText.length],
    [high, high + highText.length],
  ]
  const read = readAll(text, places, dimension)
  if (!read.ok) return read
  const [typical, p5, p95] = read.value
  if (p5 < typical && typical < p95) return parsed({ kind: 'skewed', typical, p5, p95 })
  return failed({
    ...whole(text),
    code: 'interval-misplaced',
    message: 'the typical value does not lie inside its interval',
    expected: 'the value that is passed half of the time, then those passed in 95 % and in 5 % of cases',
    cure: 'put the smaller end first, below the typical value, and the larger one above it',
  })
}

function readTolerance(text: string, sign: number, width: number, dimension: Dimension): Parsed<Uncertain> {
  const centre = readPart(text, 0, sign, dimension)
  if (!centre.ok) return centre
  const half = readPart(text, sign + width, text.length, dimension)
  if (!half.ok) return half
  const share = dimension === 'ratio' ? null : findUnit(half.value.unit, 'ratio')
  if (share !== null && half.value.unit !== '')
    return readRelative(text, centre.value, toBase(half.value.decimal, share), dimension)

  const parts = shareUnits([centre.value, half.value], dimension)
  if (!parts.ok) return parts
  const value = valueOfPart(parts.value[0], dimension)
  if (!value.ok) return value
  const u = valueOfPart(parts.value[1], dimension === 'temperature' ? 'temperatureDifference' : dimension)
  return u.ok ? normal(text, value.value, u.value) : u
}

function readRelative(text: string, centre: Part, share: number, dimension: Dimension): Parsed<Uncertain> {
  const value = valueOfPart(centre, dimension)
  if (!value.ok) return value
  if (dimension === 'temperature')
    return failed(
      malformed(text, 'a share of a temperature in °C has no meaning', 'write the tolerance in K or °C'),
    )
  return normal(text, value.value, Math.abs(value.value) * share)
}

/** What stands behind ± is twice the standard uncertainty (JCGM 100, 6.2.1 with k = 2). */
function normal(text: string, value: number, expanded: number): Parsed<Uncertain> {
  if (expanded > 0 && expanded < Infinity) return parsed({ kind: 'normal', value, u: expanded / 2 })
  if (expanded > 0)
    return failed(malformed(text, 'the tolerance is beyond all numbers', 'write a smaller one'))
  return failed({
    ...whole(text),
    code: 'tolerance-not-positive',
    message: 'the tolerance is not above zero',
    expected: 'a tolerance above zero, as in "0.7 mA ± 0.1 mA"',
    cure: 'leave the tolerance out where the number is exact',
  })
}

function readRange(text: string, dots: number, dimension: Dimension): Parsed<Uncertain> {
  const places: [number, number][] = [
    [0, dots],
    [dots + 2, text.length],
  ]
  if (text[dots + 2] === '.') {
    const two = `${text.slice(0, dots)}..${text.slice(dots).replace(/^\.+/, '')}`.trim()
    return failed(
      malformed(text, 'between the ends of a range stand two dots', `write "${two}"; below one, "0.5"`),
    )
  }
  const read = readAll(text, places, dimension)
  if (!read.ok) return read
  const [low, high] = read.value
  if (low < high) return parsed({ kind: 'uniform', low, high })
  const empty = low === high
  return failed({
    ...whole(text),
    code: empty ? 'range-empty' : 'range-reversed',
    message: empty ? 'both ends of the range are the same' : 'the range ends below its beginning',
    expected: 'the smaller end first, as in "20..35 mA"',
    cure: empty ? 'write the number alone' : 'swap the two ends',
  })
}

function readAll(text: string, places: readonly [number, number][], dimension: Dimension): Values {
  const parts: Part[] = []
  for (const [from, to] of places) {
    const part = readPart(text, from, to, dimension)
    if (!part.ok) return part
    parts.push(part.value)
  }
  const shared = shareUnits(parts, dimension)
  if (!shared.ok) return shared
  const values: number[] = []
  for (const part of shared.value) {
    const value = valueOfPart(part, dimension)
    if (!value.ok) return value
    values.push(value.value)
  }
  return parsed(values)
}

const whole = (text: string) => ({ start: text.length - text.trimStart().length, end: text.trimEnd().length })

const malformed = (text: string, message: string, cure: string): QuantityProblem => ({
  ...whole(text),
  code: 'tolerance-malformed',
  message,
  expected: 'a number, or one with a tolerance: "7 ± 1", "5..9", "< 2", "4 [2, 9]", each with its unit',
  cure,
})
