/** One number with its unit, read from a stretch of a text; the bricks of every longer notation. */
import { nearestWord } from '../numeric/edit-distance.ts'
import { DIMENSION_NAMES, type Dimension } from './dimension.ts'
import type { Parsed, QuantityProblem } from './problem.ts'
import { dimensionsOf, spellingsOf, type Unit, unitOf } from './unit.ts'

export interface Amount {
  /** As written, before the unit. */
  readonly number: number
  /** Null where none was written. */
  readonly unit: Unit | null
  readonly start: number
  readonly end: number
}

const NUMBER = /^[-+−]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?/

/** An example of each dimension, for "expected". */
const EXAMPLES: Readonly<Record<Dimension, string>> = {
  current: '0.7 mA',
  voltage: '3.3 V',
  power: '120 mW',
  resistance: '4.7 kΩ',
  capacitance: '470 µF',
  charge: '2000 mAh',
  energy: '7.4 Wh',
  duration: '10 min',
  temperature: '20 °C',
  temperatureDifference: '12 K',
  ratio: '85 %',
  frequency: '32.768 kHz',
  dataSize: '64 B',
  irradiance: '800 W/m²',
  dailyIrradiation: '2.4 kWh/m²/d',
  length: '30 m',
  angle: '60°',
  rate: '12 /d',
  mass: '40 g',
  ratioPerKelvin: '-0.3 %/K',
  voltagePerKelvin: '-2 mV/K',
  count: '6',
}

export const exampleOf = (dimension: Dimension): string => EXAMPLES[dimension]

/** Reads `text` from `start` to `end` as a number and, perhaps, a unit of `dimension`. */
export function readAmount(text: string, start: number, end: number, dimension: Dimension): Parsed<Amount> {
  const part = text.slice(start, end)
  const from = start + (part.length - part.trimStart().length)
  const body = part.trim()
  const problem = (
    code: QuantityProblem['code'],
    message: string,
    cure: string,
    at: readonly [number, number] = [from, from + Math.max(body.length, 1)],
  ): Parsed<never> => ({
    ok: false,
    problem: {
      code,
      message,
      expected: `${DIMENSION_NAMES[dimension]}, as in "${EXAMPLES[dimension]}"`,
      cure,
      start: at[0],
      end: at[1],
    },
  })

  if (body === '')
    return problem('number-missing', 'there is no number here', 'write the number with its unit')
  const comma = /^[-+−]?\d+,(\d+)/.exec(body)
  if (comma !== null)
    return problem(
      'decimal-comma',
      `"${comma[0]}" has a comma`,
      `write a decimal point ("${comma[0].replace(',', '.')}"); thousands are written without a separator`,
      [from, from + comma[0].length],
    )
  const [digits] = NUMBER.exec(body) ?? ['']
  if (digits === '')
    return problem(
      'number-malformed',
      `"${body}" does not begin with a number`,
      'write digits first, then the unit',
    )
  const number = Number(digits.replace('−', '-'))
  const rest = body.slice(digits.length)
  const unitText = rest.trim()
  if (/^[\d.,]/.test(unitText))
    return problem(
      'number-malformed',
      `"${body}" is not one number`,
      'write one number, with a decimal point at most',
    )
  if (!Number.isFinite(number))
    return problem('number-malformed', `"${digits}" is too large`, 'write a finite number')
  const amount = { number, start: from, end: from + body.length }
  if (unitText === '') return { ok: true, value: { ...amount, unit: null } }
  const unit = unitOf(unitText, dimension)
  if (unit !== null) return { ok: true, value: { ...amount, unit } }
  const at = [from + body.length - unitText.length, from + body.length] as const
  const others = dimensionsOf(unitText)
  if (others.length > 0) {
    const [other] = others
    return dimension === 'count'
      ? problem(
          'unit-not-wanted',
          `"${unitText}" is a unit, but a plain number is wanted`,
          `write ${digits} alone`,
          at,
        )
      : problem(
          'unit-wrong-dimension',
          mixedUp(unitText, other, dimension),
          cureOf(digits, unitText, dimension),
          at,
        )
  }
  const spellings = spellingsOf(dimension)
  if (spellings.length === 0)
    return problem(
      'unit-not-wanted',
      `a plain number is wanted, not "${unitText}"`,
      `write ${digits} alone`,
      at,
    )
  const nearest = nearestWord(unitText, spellings)
  return problem(
    'unit-unknown',
    `"${unitText}" is no unit known here`,
    `did you mean "${digits} ${nearest}"?`,
    at,
  )
}

const mixedUp = (unit: string, found: Dimension, wanted: Dimension): string => {
  const said = `"${unit}" is ${DIMENSION_NAMES[found]}, but ${DIMENSION_NAMES[wanted]} is wanted here`
  const pair = `${found} ${wanted}`
  if (pair === 'charge current') return `${said}: charge is current times time`
  if (pair === 'current charge') return `${said}: current is charge over time`
  if (pair === 'energy power') return `${said}: energy is power times time`
  if (pair === 'power energy') return `${said}: power is energy over time`
  if (pair === 'energy charge' || pair === 'charge energy') return `${said}: energy is charge times voltage`
  return said
}

/** mAh for mA, W for Wh and the like differ by an h: the unit that was meant is the one with it or without. */
function cureOf(digits: string, unit: string, wanted: Dimension): string {
  const meant = [unit.replace(/h$/, ''), `${unit}h`].find((guess) => unitOf(guess, wanted) !== null)
  return meant === undefined
    ? `write a unit of ${DIMENSION_NAMES[wanted].replace(/^an? /, '')}: ${spellingsOf(wanted).slice(0, 4).join(', ')}`
    : `if you meant ${DIMENSION_NAMES[wanted]}, write "${digits} ${meant}"`
}
