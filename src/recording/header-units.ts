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

/** The unit spelled `text`, e.g. `mA`, `µa`, `msec`, `Microamps`; null when it is none. */
export function headerUnit(text: string): HeaderUnit | null {
  const plain = text.trim().normalize('NFKC').toLowerCase().replace('μ', 'µ')
  return UNITS.get(plain) ?? UNITS.get(plain.replace('µ', 'u')) ?? null
}

/** The unit in a column's name: `Current (mA)`, `I[uA]`, `current_mA`, `Time / ms`, `time in s`, `mA`. */
export function unitInName(name: string): HeaderUnit | null {
  const bracketed = /[([<{]\s*([^)\]>}]*?)\s*[)\]>}]/.exec(name)
  if (bracketed) return headerUnit(bracketed[1])
  const words = name.trim().split(/[\s_/,:.-]+/)
  const last = words.at(-1) ?? ''
  // A lone letter is a symbol of the quantity (t, I, V), unless it stands after a name.
  if (words.length === 1 && (last.length > 1 || last === 'A' || last === 's'))
    return headerUnit(last) ?? headerUnit(camelTail(last))
  return words.length > 1 ? headerUnit(last) : null
}

/** `currentMa` ends in `Ma`, `timeMs` in `Ms`; a plain word is itself. */
function camelTail(word: string): string {
  return /^[a-z]+([A-Z][A-Za-z]?)$/.exec(word)?.[1] ?? word
}
