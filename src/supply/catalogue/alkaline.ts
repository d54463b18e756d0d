/**
 * Alkaline zinc - manganese dioxide, IEC letter L. The voltage slopes all the way down, and cold costs a great deal.
 * LR14 and LR20 have the voltages and rates of LR6, with resistance by electrode area.
 */
import type { Curve } from '../../numeric/curve.ts'
import type { Cell } from '../supply.ts'
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

/** At rest, hours after a load; from memory. */
const openCircuit_V: Curve = {
  x: [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1],
  y: [0.9, 1.08, 1.16, 1.23, 1.27, 1.3, 1.33, 1.36, 1.39, 1.43, 1.49, 1.59],
}

/** Grows several-fold as the zinc passivates; the shape is from memory, fresh value = 1. */
const resistanceShape: Curve = { x: [0, 0.1, 0.3, 0.5, 0.8, 1], y: [5, 3, 2, 1.6, 1.2, 1] }

function alkaline(name: string, capacity_mAh: number, fresh_Ohm: number): Cell {
  return {
    name,
    chemistry: 'alkaline',
    capacity_C: capacity_mAh * COULOMBS_PER_mAh,
    wells: { c: 0.35, k_per_s: 0.5 * PER_HOUR },
    openCircuit_V,
    openCircuit_V_per_K: 0,
    resistance_Ohm: { x: resistanceShape.x, y: resistanceShape.y.map((y) => y * fresh_Ohm) },
    resistanceFactor: { x: [-30, -20, -10, 0, 10, 20, 40], y: [10, 5, 2.9, 1.9, 1.3, 1, 0.8] },
    resistanceAgeing: 1,
    capacityFactor: { x: [-30, -20, -10, 0, 10, 20], y: [0.05, 0.35, 0.6, 0.8, 0.93, 1] },
    selfDischarge_per_year: 0.025,
    activation_eV: 0.55,
    calendarFade_per_year: 0,
    cycleFade: 0,
    cutOff_V: 0.8,
    charging: null,
    scatter: 0.04,
  }
}

export const alkalineFamily: Family = {
  chemistry: 'alkaline',
  sizedByCapacity: false,
  source:
    'typical data-sheet values, from memory; resistance and rate constants chosen so that the IEC 60086-2 tests of LR6 and LR03 end within bounds',
  cells: [
    alkaline('LR03', 900, 0.45),
    alkaline('LR6', 2400, 0.24),
    alkaline('LR14', 7200, 0.14),
    alkaline('LR20', 15000, 0.11),
  ],
}
