/** Why a unit is not right where it stands, and which was probably meant. */
import { editDistance, nearestWord } from '../numeric/edit-distance.ts'
import { DIMENSIONS, type Dimension } from './dimension.ts'
import { shownUnits } from './shown-units.ts'
import { ALL_DIMENSIONS, dimensionOf, unitNames, withUnit } from './unit.ts'

export interface UnitComplaint {
  readonly code: 'unit-missing' | 'unit-unknown' | 'unit-wrong-dimension' | 'unit-not-wanted'
  readonly message: string
  readonly cure: string
}

/** Units that people mix up: why they differ, and how the one that was written becomes the one that was asked for. */
const MIX_UPS: Partial<Record<`${Dimension} for ${Dimension}`, readonly [why: string, RegExp, string]>> = {
  'charge for current': ['a charge is a current over a time', /Ah$/, 'A'],
  'current for charge': ['a charge is a current over a time', /A$/, 'Ah'],
  'energy for power': ['an energy is a power over a time', /Wh$/, 'W'],
  'power for energy': ['an energy is a power over a time', /W$/, 'Wh'],
  'energy for charge': ['an energy is a charge times a voltage', /Wh$/, 'Ah'],
  'charge for energy': ['an energy is a charge times a voltage', /Ah$/, 'Wh'],
  'power for current': ['a power is a current times a voltage', /W$/, 'A'],
  'current for power': ['a power is a current times a voltage', /A$/, 'W'],
  'length for duration': ['m is a metre, min a minute', /^m$/, 'min'],
  'temperatureDifference for temperature': ['K would count from absolute zero', /^K$/, '°C'],
  'frequency for rate': ['Hz is kept for oscillations', /^Hz$/, 'per second'],
}

/** Units that are known well enough to say more than "unknown". */
const NOT_HERE: Readonly<Record<string, string>> = {
  KB: 'write kB for 1000 bytes or KiB for 1024',
  month: 'months differ in length: write days, or years',
  months: 'months differ in length: write days, or years',
  '°F': 'convert it to °C',
  F: 'convert it to °C',
}

/** What to say of `unit` ('' where there is none), written after `decimal` where `dimension` is asked. */
export function complainAboutUnit(decimal: string, unit: string, dimension: Dimension): UnitComplaint {
  const asked = DIMENSIONS[dimension].noun
  const did = (meant: string) => `did you mean "${withUnit(decimal, meant)}"?`
  if (unit === '')
    return {
      code: 'unit-missing',
      message: `${decimal} has no unit, and ${asked} needs one`,
      cure: `write the unit behind the number, as in "${DIMENSIONS[dimension].example}"`,
    }
  if (dimension === 'count')
    return {
      code: 'unit-not-wanted',
      message: `a plain number has no unit, and here stands "${unit}"`,
      cure: `write "${decimal}"`,
    }
  const elsewhere = dimensionOf(unit)
  if (elsewhere !== null) return wrongDimension(unit, elsewhere, dimension, did)
  const message = `"${unit}" is no unit of ${asked}`
  const unknown = (cure: string): UnitComplaint => ({ code: 'unit-unknown', message, cure })
  if (NOT_HERE[unit] !== undefined) return unknown(NOT_HERE[unit])
  const meant = sameButCase(unit, dimension) ?? begunBy(unit, dimension)
  if (meant !== null) return unknown(did(meant))
  for (const other of ALL_DIMENSIONS) {
    const respelt = sameButCase(unit, other)
    if (respelt !== null) return wrongDimension(respelt, other, dimension, did)
  }
  const near = nearest(unit, dimension)
  return unknown(near === null ? `use one of ${shownUnits(dimension).join(', ')}` : did(near))
}

function wrongDimension(
  unit: string,
  given: Dimension,
  asked: Dimension,
  did: (meant: string) => string,
): UnitComplaint {
  const message = `"${unit}" measures ${DIMENSIONS[given].noun}, and ${DIMENSIONS[asked].noun} is asked for`
  const mixUp = MIX_UPS[`${given} for ${asked}`]
  if (mixUp === undefined)
    return { code: 'unit-wrong-dimension', message, cure: `use one of ${shownUnits(asked).join(', ')}` }
  const [why, ending, replacement] = mixUp
  const meant = unit.replace(ending, replacement)
  const cure = meant === unit ? `use one of ${shownUnits(asked).join(', ')}` : did(meant)
  return { code: 'unit-wrong-dimension', message: `${message}: ${why}`, cure }
}

/** The spelling that differs from `unit` only by case, and in the fewest letters; null where there is none. */
function sameButCase(unit: string, dimension: Dimension): string | null {
  const alike = unitNames(dimension).filter((name) => name.toLowerCase() === unit.toLowerCase())
  const changes = (name: string) => [...name].filter((letter, i) => letter !== unit[i]).length
  return alike.sort((a, b) => changes(a) - changes(b))[0] ?? null
}

/** The first spelling that begins with `unit` (`k` for kΩ); null where there is none. */
const begunBy = (unit: string, dimension: Dimension): string | null =>
  unitNames(dimension).find((name) => name.startsWith(unit)) ?? null

/** The spelling fewest edits away; null where that would be another word altogether. */
function nearest(unit: string, dimension: Dimension): string | null {
  const near = nearestWord(unit, unitNames(dimension))
  const limit = Math.max(1, Math.floor(unit.length / 2))
  return editDistance(unit.toLowerCase(), near.toLowerCase()) <= limit ? near : null
}
