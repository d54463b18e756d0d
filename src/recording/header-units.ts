/** Units of current, voltage and time in the spellings that log headers use; case is forgiven, since no log means MA. */

export type Dimension = 'time' | 'current' | 'voltage'

export interface HeaderUnit {
  readonly dimension: Dimension
  /** As people write it. */
  readonly name: string
  /** Power of ten to the base unit, and a factor beside it (60 for minutes). */
  readonly shift: number
  readonly factor: number
}

const PREFIXES: readonly [string, string, number][] = [
  ['p', 'pico', -12],
  ['n', 'nano', -9],
  ['u', 'micro', -6],
  ['µ', 'micro', -6],
  ['m', 'milli', -3],
  ['', '', 0],
  ['k', 'kilo', 3],
]
const BASES: readonly { dimension: Dimension; symbol: string; words: readonly string[] }[] = [
  { dimension: 'current', symbol: 'A', words: ['a', 'amp', 'amps', 'ampere', 'amperes'] },
  { dimension: 'voltage', symbol: 'V', words: ['v', 'volt', 'volts'] },
  { dimension: 'time', symbol: 's', words: ['s', 'sec', 'secs', 'second', 'seconds'] },
]
const LONGER: readonly [number, string, readonly string[]][] = [
  [60, 'min', ['min', 'mins', 'minute', 'minutes']],
  [3600, 'h', ['h', 'hr', 'hrs', 'hour', 'hours']],
]

const UNITS = new Map<string, HeaderUnit>()
for (const { dimension, symbol, words } of BASES)
  for (const [short, long, shift] of PREFIXES)
    for (const word of words) {
      const unit = { dimension, name: short.replace('u', 'µ') + symbol, shift, factor: 1 }
      UNITS.set(short + word, unit)
      UNITS.set(long + word, unit)
    }
for (const [factor, name, words] of LONGER)
  for (const word of words) UNITS.set(word, { dimension: 'time', name, shift: 0, factor })

/** The unit spelled `text`, e.g. `mA`, `µa`, `msec`, `sec.`, `Microamps`; null when it is none. */
export function headerUnit(text: string): HeaderUnit | null {
  const plain = text.trim().normalize('NFKC').toLowerCase().replace('μ', 'µ').replace(/\.$/, '')
  return UNITS.get(plain) ?? UNITS.get(plain.replace('µ', 'u')) ?? null
}

const BRACKETS = /[([<{]\s*([^)\]>}]*?)\s*[)\]>}]/g
/** Words that stand beside a unit, or where one could, and are none. */
const NO_UNIT =
  /^(avg|average|mean|rms|min|minimum|max|maximum|dc|ac|ch(annel)?\.?[a-d\d]*|\d+|utc|gmt|local|unix|epoch|)$/i
/** A factor before a unit, `x10^-3 A` or `E-3 A`: what it multiplies is not for us to guess. */
const FACTOR = /[×x*·^]\s*\d|\d\s*[×*·^]|\be[-+]?\d/i
/** What is counted in these is no current, though the name may say so. */
const OTHER_UNIT = /^([nuµm]?(ah|wh)|counts?|raw|adc|lsb|codes?)$/i
/** Names of what has a lowest value: there `min` is no minute. */
const HAS_MINIMUM = /current|amp|volt|power|strom|(^|[\s_])[iuv]([\s_([]|$)/i

/**
 * The unit in a column's name: `Current (mA)`, `I[uA]`, `current_mA`, `Time / ms`, `time in s`, `mA`; also with more in
 * the brackets, `Current (mA, avg)`, in the second of them, `Current (10 ohm) (mA)`, or in the middle, `current_ma_avg`.
 */
export function unitInName(name: string): HeaderUnit | null {
  const brackets = bracketsIn(name)
  if (brackets.some((text) => FACTOR.test(text))) return null
  const bracketed = brackets.map(unitOfBracket).find((unit) => unit !== null)
  const unit = bracketed ?? unitInWords(name.replace(BRACKETS, ' '))
  return unit?.name === 'min' && HAS_MINIMUM.test(name) ? null : unit
}

/** What a name says where its unit should stand, when that is none that is known; null when it says one, or nothing. */
export function unclearUnit(name: string): string | null {
  if (unitInName(name) !== null) return null
  const bracket = bracketsIn(name).find((text) => !wordsOf(text).every((word) => NO_UNIT.test(word)))
  const words = name.replace(BRACKETS, ' ').split(WORD_ENDS)
  return bracket ?? words.find((word) => OTHER_UNIT.test(word)) ?? null
}

const WORD_ENDS = /[\s_/,:.-]+/
const bracketsIn = (name: string): string[] => [...name.matchAll(BRACKETS)].map(([, text]) => text)
const wordsOf = (text: string): string[] => text.split(/[\s,;:]+/)

/** A bracket that holds two of them, `(mA h)`, holds a unit of another quantity. */
function unitOfBracket(text: string): HeaderUnit | null {
  const whole = headerUnit(text)
  if (whole !== null) return whole
  const [first, ...others] = wordsOf(text)
    .filter((word) => !NO_UNIT.test(word))
    .map(headerUnit)
  return others.every((unit) => unit === null) ? (first ?? null) : null
}

function unitInWords(text: string): HeaderUnit | null {
  const words = text.trim().split(WORD_ENDS)
  const last = words.at(-1) ?? ''
  // A lone letter is a symbol of the quantity (t, I, V), unless it stands after a name.
  if (words.length === 1)
    return last.length > 1 || last === 'A' || last === 's'
      ? (headerUnit(last) ?? headerUnit(camelTail(last)))
      : null
  // PV is a panel and PA an amplifier; nobody writes pico so.
  const written = words.slice(1).filter((word) => !word.startsWith('P'))
  const units = written.filter((word) => word.length > 1 || word === last).map(headerUnit)
  return units.findLast((unit) => unit !== null) ?? null
}

/** `currentMa` ends in `Ma`, `timeMs` in `Ms`; a plain word is itself. */
function camelTail(word: string): string {
  return /^[a-z]+([A-Z][A-Za-z]?)$/.exec(word)?.[1] ?? word
}
