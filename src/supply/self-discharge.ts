/**
 * Charge that a cell loses by itself: a rate on the charge left, taken from both wells alike, with a temperature
 * dependence after Arrhenius. Seconds, °C; a year has 365 days.
 */
import { arrheniusFactor } from './arrhenius.ts'
import type { Cell } from './supply.ts'

const SECONDS_PER_YEAR = 365 * 86400

/** Rate on the charge left, 1/s. */
export function selfDischargeRate_per_s(cell: Cell, temperature_C: number): number {
  const rate_per_year = cell.selfDischarge_per_year * arrheniusFactor(cell.activation_eV, temperature_C)
  return rate_per_year / SECONDS_PER_YEAR
}

/** Share of the charge still there after `duration_s` at one temperature: exact for a constant rate. */
export function shareKept(cell: Cell, temperature_C: number, duration_s: number): number {
  return Math.exp(-selfDischargeRate_per_s(cell, temperature_C) * duration_s)
}
