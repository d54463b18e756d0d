/**
 * A duration dragged to another length, written as the file writes it: in its unit, with its tolerance. A tolerance in per
 * cent and one in units of time stay as they are; the ends of an interval, a range or a limit move in proportion.
 */
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
import type { Uncertain } from '../../quantity/uncertain.ts'

const NUMBER = /(?:\d+(?:\.\d+)?|(?<!\.)\.\d+)(?:[eE][-+−]?\d+)?/g
/** Of ends that move along. */
const DIGITS = 2

/** Null where the text is no duration above zero. */
export function durationOf_s(text: string): number | null {
  const read = parseUncertain(text, 'duration')
  return read.ok && best(read.value) > 0 ? best(read.value) : null
}

/**
 * `text` with `next_s` as its best value, of a range or limit to two digits; null where it is no duration above zero.
 */
export function retimed(text: string, next_s: number): string | null {
  const read = parseUncertain(text, 'duration')
  const now_s = durationOf_s(text)
  if (!read.ok || now_s === null) return null
  const ratio = next_s / now_s
  const written = numbersOf(text)
  const first = firstNumber_s(read.value)
  const unit_s = first / Number(written[0])
  const moved = (value: number) => Number((value * ratio).toPrecision(DIGITS))
  const wanted = Number((next_s / unit_s).toPrecision(12))
  // The first number is the best value itself, but for a range or a limit.
  const isFirstBest = read.value.kind !== 'uniform' && read.value.kind !== 'below'
  const isRestKept = read.value.kind === 'exact' || read.value.kind === 'normal'
  const numbers = written.map((number, i) => {
    if (i === 0 && isFirstBest) return wanted
    return isRestKept ? Number(number) : moved(Number(number))
  })
  let at = 0
  return text.replace(NUMBER, (number) => {
    const next = numbers[at++]
    return next === Number(number) ? number : String(next)
  })
}

/** Seconds that one of the unit in which the text's first number stands has: what a handy amount is counted in. */
export function unitOf_s(text: string): number | null {
  const read = parseUncertain(text, 'duration')
  if (!read.ok || durationOf_s(text) === null) return null
  return firstNumber_s(read.value) / Number(numbersOf(text)[0])
}

const numbersOf = (text: string): readonly string[] => text.replaceAll('−', '-').match(NUMBER) ?? []

function firstNumber_s(value: Uncertain): number {
  switch (value.kind) {
    case 'exact':
    case 'normal':
      return value.value
    case 'uniform':
      return value.low
    case 'below':
      return value.limit
    case 'skewed':
      return value.typical
  }
}

/** What happens to the tolerance when the duration is dragged, in words; null where there is none. */
export function toleranceWords(text: string): string | null {
  const read = parseUncertain(text, 'duration')
  if (!read.ok) return null
  switch (read.value.kind) {
    case 'exact':
      return null
    case 'normal':
      return /%|percent/.test(text)
        ? 'its tolerance stays the same share of it'
        : 'its tolerance stays as long as it is'
    case 'skewed':
      return 'the ends of its interval move in proportion'
    case 'uniform':
      return 'both ends of its range move in proportion'
    case 'below':
      return 'it is half of its limit, which moves'
  }
}

/** The handiest number (1, 2 or 5 times a power of ten) that is no larger than `most`. */
export function handy(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most))
  const lead = most / power
  return (lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * power
}

/** `value` as a multiple of `grain`, at least one, without binary noise. */
export const inGrains = (value: number, grain: number): number =>
  Number((Math.max(1, Math.round(value / grain)) * grain).toPrecision(12))
