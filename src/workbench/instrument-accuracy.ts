/** Limits of error as makers print them: `± (1.2 % + 3 digits)`, `0.5 % of range + 2 µA`, `1 % rdg + 5 counts`. */
import { type FieldProblem, type Read, sourcedField } from '../outpost/file/sourced-field.ts'
import { parseQuantity } from '../quantity/parse-quantity.ts'

/** All zero or more, added up; shares as numbers, 0.01 for 1 %. */
export interface Accuracy {
  readonly ofReading: number
  /** Of the range's full scale. */
  readonly ofRange: number
  readonly digits: number
  readonly offset_A: number
}

export const NO_ERROR: Accuracy = { ofReading: 0, ofRange: 0, digits: 0, offset_A: 0 }

export const accuracyField = sourcedField(
  'none',
  {
    description: 'Limits of error: shares of the reading or of the range, digits, a current, added up.',
    examples: ['1.2 % + 3 digits', '0.5 % + 2 µA', '0.1 % of reading + 0.05 % of range'],
  },
  readAccuracy,
)

// The words are those of data sheets of hand and bench instruments (common practice).
const SHARE = /^(\d*\.?\d+)\s*(%|ppm)\s*(?:(?:of\s+)?(?:the\s+)?(.+))?$/i
const READING = /^(?:reading|rdg?|rdng|measured value|value)\.?$/i
const RANGE = /^(?:range|rng|full[- ]scale|f\.?s)\.?$/i
const DIGITS = /^(\d*\.?\d+)\s*(digits?|dgts?|dig|d|counts?|cts?|lsd)?\.?$/i

/** A number alone counts digits where a share stands before it, as in `1 % + 3`; elsewhere it could be anything. */
function readAccuracy(text: string): Read<Accuracy> {
  const sum = { ...NO_ERROR }
  for (const part of partsOf(text)) {
    const [, digits, unit] = DIGITS.exec(part) ?? []
    const [, share, of, what = 'reading'] = SHARE.exec(part) ?? []
    if (digits !== undefined && (unit !== undefined || sum.ofReading + sum.ofRange > 0))
      sum.digits += Number(digits)
    else if (share !== undefined && READING.test(what)) sum.ofReading += ratioOf(share, of)
    else if (share !== undefined && RANGE.test(what)) sum.ofRange += ratioOf(share, of)
    else {
      const read = parseQuantity(part, 'current')
      if (!read.ok || read.value < 0 || /^[-−]/.test(part))
        return { ok: false, problem: problemOf(text, part) }
      sum.offset_A += read.value
    }
  }
  return { ok: true, value: sum }
}

/** Without the sign and the brackets around the whole: what is added up. */
function partsOf(text: string): string[] {
  const plain = text.replaceAll('+/-', '±').trim()
  const [, inside] = /^±?\s*\(([^()]*)\)$/.exec(plain) ?? []
  return (inside ?? plain)
    .trim()
    .replace(/^±/, '')
    .split(/[+±]/)
    .map((part) => part.trim())
}

const ratioOf = (number: string, unit: string): number => Number(number) * (unit === '%' ? 1e-2 : 1e-6)

function problemOf(text: string, part: string): FieldProblem {
  const start = Math.max(text.indexOf(part), 0)
  const place = part === '' ? {} : { start, end: start + part.length }
  if (/^[-−]/.test(part))
    return {
      code: 'out-of-range',
      message: `${part} is below zero`,
      expected: 'limits of error, which hold to both sides: zero or more',
      cure: 'leave the sign out',
      ...place,
    }
  return {
    code: 'accuracy-unreadable',
    message: part === '' ? 'a part of the accuracy is missing' : `"${part}" is no part of an accuracy`,
    expected:
      'shares, digits and currents with + between, as in "1.2 % + 3 digits" or "0.1 % of range + 2 µA"',
    cure: 'write each part with its unit: %, ppm (of reading, of range), digits, counts, or a current',
    ...place,
  }
}
