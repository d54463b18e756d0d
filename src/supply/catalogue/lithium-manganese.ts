/**
 * Lithium - manganese dioxide, IEC letter C: coin cells by diameter and height in mm, and the cylindrical CR17345. A
 * flat voltage and little self-discharge; a coin's resistance, not its charge, sets what a radio burst may draw.
 */
import type { Curve } from '../../numeric/curve.ts'
import type { Cell } from '../supply.ts'
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

/** At rest; from memory. */
const openCircuit_V: Curve = {
  x: [0, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 0.95, 1],
  y: [2, 2.3, 2.55, 2.74, 2.88, 2.93, 2.98, 3.02, 3.06, 3.1, 3.2],
}

/** Grows with depth; the shape is from memory, fresh value = 1. */
const resistanceShape: Curve = { x: [0, 0.05, 0.1, 0.2, 0.5, 1], y: [8, 5, 3.6, 2.4, 1.4, 1] }

function manganese(name: string, capacity_mAh: number, fresh_Ohm: number, wells: Cell['wells']): Cell {
  return {
    name,
    chemistry: 'Li-MnO2',
    capacity_C: capacity_mAh * COULOMBS_PER_mAh,
    wells,
    openCircuit_V,
    openCircuit_V_per_K: 0,
    resistance_Ohm: { x: resistanceShape.x, y: resistanceShape.y.map((y) => y * fresh_Ohm) },
    resistanceFactor: { x: [-40, -30, -20, -10, 0, 20, 60], y: [12, 7, 4.5, 3, 2, 1, 0.6] },
    resistanceAgeing: 1,
    capacityFactor: { x: [-40, -30, -20, -10, 0, 20], y: [0.4, 0.65, 0.82, 0.9, 0.95, 1] },
    selfDischarge_per_year: 0.01,
    activation_eV: 0.55,
    calendarFade_per_year: 0,
    cycleFade: 0,
    cutOff_V: 2,
    charging: null,
    scatter: 0.03,
  }
}

/** A coin is one thick pair of electrodes: bound charge comes up slowly. Four fifths at a hundred-hour rate; from memory. */
const coin = (name: string, capacity_mAh: number, fresh_Ohm: number) =>
  manganese(name, capacity_mAh, fresh_Ohm, { c: 0.5, k_per_s: 0.05 * PER_HOUR })

export const lithiumManganeseFamily: Family = {
  chemistry: 'Li-MnO2',
  sizedByCapacity: false,
  source:
    'typical data-sheet values, from memory; the IEC 60086-2 service output tests of the coin cells end within bounds',
  cells: [
    coin('CR1220', 38, 40),
    coin('CR1616', 55, 28),
    coin('CR2016', 90, 20),
    coin('CR2025', 155, 16),
    coin('CR2032', 225, 15),
    coin('CR2320', 135, 14),
    coin('CR2430', 290, 11),
    coin('CR2450', 600, 11),
    // Wound, so two thirds still at a one-hour rate; from memory.
    manganese('CR17345', 1500, 0.3, { c: 0.8, k_per_s: 2 * PER_HOUR }),
  ],
}
