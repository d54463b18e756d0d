/** A day's charge is told in ampere-hours, as cells are, and all its parts in the same unit. */
import { findUnit, type Unit } from '../quantity/unit.ts'

const MILLIAMPERE_HOUR_C = 3.6

export function dayUnit(total_C: number): Unit {
  const symbol = total_C >= MILLIAMPERE_HOUR_C ? 'mAh' : 'µAh'
  const unit = findUnit(symbol, 'charge')
  if (unit === null) throw new RangeError(`"${symbol}" is no unit of charge`)
  return unit
}
