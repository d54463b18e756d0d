/** Other spellings of the same unit: in wrong case, cut short, misspelt, or with its letter in place of the point. */
import { editDistance } from '../numeric/edit-distance.ts'
import type { Dimension } from './dimension.ts'
import { canonical, findUnit, type Unit, unitNames, withUnit } from './unit.ts'

/** A word of so many letters may have one letter wrong; shorter ones are too near to each other. */
const LONG_WORD = 4

/** The unit of `dimension` that `text` can only be another spelling of; null where there is none, or more than one. */
export function respelt(text: string, dimension: Dimension): string | null {
  const names = unitNames(dimension)
  return sameButCase(text, dimension, names) ?? prefixAlone(text, names) ?? misspelt(text, dimension, names)
}

/**
 * `m` and `M` differ by a factor of a thousand million, so that case is taken for a slip only where the first letter
 * stands as it should, or where all is in capitals and only one unit can be meant.
 */
function sameButCase(text: string, dimension: Dimension, names: readonly string[]): string | null {
  const written = canonical(text)
  const alike = names.filter((name) => canonical(name).toLowerCase() === written.toLowerCase())
  const safe = alike.filter((name) => canonical(name)[0] === written[0] || !/^m/i.test(written))
  if (safe.length > 0) return onlyOne(safe, dimension)
  return written === written.toUpperCase() ? onlyOne(alike, dimension) : null
}

/** `10k` where a resistance is asked: the unit goes without saying. */
function prefixAlone(text: string, names: readonly string[]): string | null {
  if (!/^[kMG]$/.test(text)) return null
  return names.find((name) => name.startsWith(text) && names.includes(name.slice(1))) ?? null
}

function misspelt(text: string, dimension: Dimension, names: readonly string[]): string | null {
  if (text.length < LONG_WORD - 1) return null
  const near = names.filter(
    (name) =>
      name.length >= LONG_WORD &&
      /^[a-z]+$/i.test(name) &&
      name[0] === text[0] &&
      editDistance(text.toLowerCase(), name.toLowerCase()) === 1,
  )
  return onlyOne(near, dimension)
}

/** The first of several names for one unit; null where they are of different units. */
function onlyOne(names: readonly string[], dimension: Dimension): string | null {
  const size = (name: string) => sizeOf(findUnit(name, dimension))
  return names.length > 0 && names.every((name) => size(name) === size(names[0])) ? names[0] : null
}

const sizeOf = (unit: Unit | null): string => `${unit?.factor} ${unit?.exponent}`

/** Letters that stand in the place of the decimal point on parts and drawings (IEC 60062; V by common practice). */
const POINTS: Partial<Record<Dimension, Readonly<Record<string, string>>>> = {
  resistance: { R: 'Ω', k: 'kΩ', K: 'kΩ', M: 'MΩ', G: 'GΩ' },
  capacitance: { p: 'pF', n: 'nF', u: 'µF', µ: 'µF' },
  voltage: { V: 'V', v: 'V' },
}

/** `4k7` as `4.7 kΩ`, which it is another spelling of; `decimal` is what stands before the letter. */
export function letterForPoint(decimal: string, rest: string, dimension: Dimension): string | null {
  const found = /^(\D)(\d+)$/.exec(rest)
  const points = POINTS[dimension]
  if (found === null || points === undefined || !/^\d+$/.test(decimal)) return null
  const [, letter, digits] = found
  return Object.hasOwn(points, letter) ? withUnit(`${decimal}.${digits}`, points[letter]) : null
}
