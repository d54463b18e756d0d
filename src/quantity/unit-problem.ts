/**
 * Why a unit is not right where it stands. A cure names another number only where it is the same quantity, in another
 * spelling: a wrong suggestion is taken over as readily as a right one.
 */
import { DIMENSIONS, type Dimension } from './dimension.ts'
import { shownUnits } from './shown-units.ts'
import { ALL_DIMENSIONS, dimensionOf, withUnit } from './unit.ts'
import { letterForPoint, respelt } from './unit-spelling.ts'

export interface UnitComplaint {
  readonly code: 'unit-missing' | 'unit-unknown' | 'unit-wrong-dimension' | 'unit-not-wanted'
  readonly message: string
  readonly cure: string
}

/** Units that people mix up: why they differ, and how the one follows from the other. */
const MIX_UPS: Partial<Record<`${Dimension} for ${Dimension}`, readonly [why: string, how: string]>> = {
  'charge for current': ['a charge is a current over a time', 'divide the charge by the time that it takes'],
  'current for charge': ['a charge is a current over a time', 'multiply the current by its time'],
  'energy for power': ['an energy is a power over a time', 'divide the energy by the time that it takes'],
  'power for energy': ['an energy is a power over a time', 'multiply the power by its time'],
  'energy for charge': ['an energy is a charge times a voltage', 'divide the energy by the nominal voltage'],
  'charge for energy': [
    'an energy is a charge times a voltage',
    'multiply the charge by the nominal voltage',
  ],
  'power for current': ['a power is a current times a voltage', 'divide the power by its voltage'],
  'current for power': ['a power is a current times a voltage', 'multiply the current by its voltage'],
  'length for duration': ['m is a metre, min a minute', 'write min for minutes'],
  'temperatureDifference for temperature': ['K counts from absolute zero', 'subtract 273.15 from kelvins'],
}

/** Spellings that are known well enough to say more than "unknown". */
const NOT_HERE: readonly (readonly [spelling: RegExp, asked: Dimension, cure: string])[] = [
  [/^KB$/, 'dataSize', 'write kB for 1000 bytes or KiB for 1024'],
  [
    /^[kKMG]?b(its?)?$/,
    'dataSize',
    'b would be a bit, of which a byte has eight: write B, kB or MB for bytes',
  ],
  [
    /^mf(d|arads?)?$/i,
    'capacitance',
    'old drawings write mf and mfd for microfarads: write µF if that is meant',
  ],
  [/^(mo|mos|months?|.*\bmonths?)$/i, 'duration', 'months differ in length: write days, or years'],
  [/\bmo(nths?)?$/i, 'rate', 'months differ in length: write it per day, or per year'],
  [/^k?Wh\/m²$|^[kM]?J\/m²$/, 'dailyIrradiation', "write it per day (/d); divide a month's sum by its days"],
  [/^(°|deg)?F$/i, 'temperature', 'convert it to °C: subtract 32, then multiply by 5/9'],
  [/^(°|deg)?F$/i, 'temperatureDifference', 'convert it to K: multiply by 5/9'],
]

/** What to say of `unit` ('' where there is none), written after `decimal` where `dimension` is asked. */
export function complainAboutUnit(decimal: string, unit: string, dimension: Dimension): UnitComplaint {
  const asked = DIMENSIONS[dimension].noun
  const did = (text: string) => `did you mean "${text}"?`
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
  const unknown = (cure: string): UnitComplaint => ({
    code: 'unit-unknown',
    message: `"${unit}" is no unit of ${asked}`,
    cure,
  })
  const known = NOT_HERE.find(([spelling, where]) => where === dimension && spelling.test(unit))
  if (known !== undefined) return unknown(known[2])
  const elsewhere = dimensionOf(unit)
  if (elsewhere !== null) return wrongDimension(decimal, unit, elsewhere, dimension)
  const point = letterForPoint(decimal, unit, dimension)
  if (point !== null) return unknown(did(point))
  const same = respelt(unit, dimension)
  if (same !== null) return unknown(did(withUnit(decimal, same)))
  for (const other of ALL_DIMENSIONS) {
    const meant = respelt(unit, other)
    if (meant !== null) return wrongDimension(decimal, meant, other, dimension)
  }
  return unknown(oneOf(dimension))
}

const oneOf = (dimension: Dimension): string => `use one of ${shownUnits(dimension).join(', ')}`

function wrongDimension(decimal: string, unit: string, given: Dimension, asked: Dimension): UnitComplaint {
  const message = `"${unit}" measures ${DIMENSIONS[given].noun}, and ${DIMENSIONS[asked].noun} is asked for`
  const code = 'unit-wrong-dimension'
  if (asked === 'rate' && unit === 'Hz')
    return {
      code,
      message: `${message}: Hz is kept for oscillations`,
      cure: `did you mean "${withUnit(decimal, 'per second')}"?`,
    }
  const mixUp = MIX_UPS[`${given} for ${asked}`]
  if (mixUp === undefined) return { code, message, cure: oneOf(asked) }
  const [why, how] = mixUp
  return { code, message: `${message}: ${why}`, cure: `${how}, and ${oneOf(asked)}` }
}
