/**
 * Capacity lost for good, as a share of the new cell's ("fade", 0..1): linear in time, faster when warm (Arrhenius),
 * and linear in the charge taken out. Charge that stood in lost capacity is lost with it. Seconds, coulombs, °C.
 */
import { arrheniusFactor } from './arrhenius.ts'
import type { Cell } from './supply.ts'

const SECONDS_PER_YEAR = 365 * 86400

/** Calendar fade, 1/s. */
export function calendarFade_per_s(cell: Cell, temperature_C: number): number {
  const fade_per_year = cell.calendarFade_per_year * arrheniusFactor(cell.activation_eV, temperature_C)
  return fade_per_year / SECONDS_PER_YEAR
}

/** Cycle fade per coulomb taken out: one full equivalent cycle takes out the new cell's capacity once. */
export function cycleFade_per_C(cell: Cell): number {
  return cell.cycleFade / cell.capacity_C
}

/** Fade of a cell that has lain for `age_s` at one temperature, unused; at most 1. */
export function fadeAtAge(cell: Cell, age_s: number, temperature_C: number): number {
  return Math.min(1, calendarFade_per_s(cell, temperature_C) * age_s)
}

/** Share of the charge that stays when fade goes from `before` to `after` (before <= after <= 1, before < 1). */
export function shareLeftByFade(before: number, after: number): number {
  return (1 - after) / (1 - before)
}
