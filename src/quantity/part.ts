/** One number with what stands behind it: the piece that every quantity and tolerance is made of. */
import { DIMENSIONS, type Dimension } from './dimension.ts'
import { failed, type Parsed, parsed } from './problem.ts'
import { findUnit, toBase, withUnit } from './unit.ts'
import { complainAboutUnit } from './unit-problem.ts'

export interface Part {
  /** The number as `Number` reads it. */
  readonly decimal: string
  /** '' where none is written. */
  readonly unit: string
  /** Offsets in the whole text, blanks at the ends left out; the unit begins at `unitStart`. */
  readonly start: number
  readonly unitStart: number
  readonly end: number
}

const NUMBER = /^[-+−]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][-+−]?\d+)?/
const COMMA = /^[-+−]?\d+(?:[\d.]*),\d[\d,.]*/
const RANGE_IN_WORDS = /^(.*?)\s*(?:[-–—…]|\bto\b)\s*[\d.]/

const expectedFor = (dimension: Dimension): string =>
  `${DIMENSIONS[dimension].noun}, as in "${DIMENSIONS[dimension].example}"`

/** Reads `text` from `from` to `to` as a number and whatever follows it; `dimension` is for the words of a problem. */
export function readPart(text: string, from: number, to: number, dimension: Dimension): Parsed<Part> {
  const piece = text.slice(from, to)
  const start = from + (piece.length - piece.trimStart().length)
  const end = Math.max(start, from + piece.trimEnd().length)
  const expected = expectedFor(dimension)
  const body = text.slice(start, end)

  const comma = COMMA.exec(body)
  if (comma !== null)
    return failed({
      code: 'decimal-comma',
      message: `"${comma[0]}" has a comma: the decimal sign is a point, and nothing stands between thousands`,
      expected,
      cure: commaCure(comma[0]),
      start,
      end: start + comma[0].length,
    })
  const found = NUMBER.exec(body)
  if (found === null) {
    const missing = !/\d/.test(body)
    return failed({
      code: missing ? 'number-missing' : 'number-malformed',
      message: missing ? 'there is no number' : `"${body}" does not begin with a number`,
      expected,
      cure: 'write the number first, then its unit',
      start,
      end,
    })
  }
  const decimal = found[0].replaceAll('−', '-')
  const behind = body.slice(found[0].length)
  const unit = behind.trim()
  const range = RANGE_IN_WORDS.exec(unit)
  if (range !== null)
    return failed({
      code: 'tolerance-malformed',
      message: `"${body}" looks like a range`,
      expected: `a range with two dots between its ends, as in "2..5"`,
      cure: `write "${decimal}..${unit.slice(range[0].length - 1)}"`,
      start,
      end,
    })
  if (/^[._'’\d]/.test(unit) || /\d\s+\d/.test(body) || !Number.isFinite(Number(decimal)))
    return failed({
      code: 'number-malformed',
      message: `"${body}" is not one number with its unit`,
      expected,
      cure: 'write digits with at most one point, no blanks or marks between them, and one unit',
      start,
      end,
    })
  return parsed({ decimal, unit, start, unitStart: end - unit.length, end })
}

/** The value of a part in base units. Zero needs no unit, except on a scale whose zero is arbitrary. */
export function valueOfPart(part: Part, dimension: Dimension): Parsed<number> {
  if (part.unit === '' && Number(part.decimal) === 0 && dimension !== 'temperature') return parsed(0)
  const unit = findUnit(part.unit, dimension)
  if (unit !== null) {
    const value = toBase(part.decimal, unit)
    if (Number.isFinite(value)) return parsed(value)
    return failed({
      code: 'number-too-large',
      message: `${withUnit(part.decimal, part.unit)} is larger than any number that can be reckoned with`,
      expected: expectedFor(dimension),
      cure: 'check the exponent and the unit',
      start: part.start,
      end: part.end,
    })
  }
  return failed({
    ...complainAboutUnit(part.decimal, part.unit, dimension),
    expected: expectedFor(dimension),
    start: part.unit === '' ? part.start : part.unitStart,
    end: part.end,
  })
}

/** `0,7` can only mean 0.7; `1,000` may mean either. */
function commaCure(number: string): string {
  const withPoint = number.replace(',', '.')
  if (/^[-+−]?\d+,\d+$/.test(number) && !/^[-+−]?[1-9]\d{0,2},\d{3}$/.test(number))
    return `write "${withPoint}"`
  const without = number.replaceAll(',', '')
  return /^[^,]*,[^,.]*$/.test(number) ? `write "${withPoint}" or "${without}"` : `write "${without}"`
}
