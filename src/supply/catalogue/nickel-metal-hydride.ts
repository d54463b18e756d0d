/** Nickel - metal hydride of the low-self-discharge kind, IEC letters HR. */
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

export const nickelMetalHydrideFamily: Family = {
  chemistry: 'NiMH',
  sizedByCapacity: false,
  source: 'typical data-sheet values, from memory',
  cells: [
    {
      name: 'HR6',
      chemistry: 'NiMH',
      capacity_C: 2000 * COULOMBS_PER_mAh,
      wells: { c: 0.85, k_per_s: 4 * PER_HOUR },
      // At rest, from memory.
      openCircuit_V: {
        x: [0, 0.03, 0.1, 0.2, 0.4, 0.6, 0.8, 0.9, 1],
        y: [1, 1.13, 1.22, 1.25, 1.275, 1.29, 1.31, 1.335, 1.4],
      },
      openCircuit_V_per_K: 0,
      resistance_Ohm: { x: [0, 0.1, 0.3, 1], y: [0.12, 0.06, 0.04, 0.03] },
      resistanceFactor: { x: [-30, -20, -10, 0, 20, 40], y: [5, 3.2, 2.2, 1.6, 1, 0.8] },
      resistanceAgeing: 0.2,
      capacityFactor: { x: [-30, -20, -10, 0, 10, 20], y: [0.3, 0.6, 0.77, 0.88, 0.96, 1] },
      // 80 % after a year, the low-self-discharge kind; from memory.
      selfDischarge_per_year: 0.22,
      activation_eV: 0.5,
      calendarFade_per_year: 0.03,
      // 80 % after 1000 full cycles; from memory.
      cycleFade: 0.0002,
      cutOff_V: 1,
      // A tenth of the capacity an hour is what an overcharged cell bears without end-of-charge detection.
      charging: { low_C: 0, high_C: 45, full_V: 1.45, coulombicEfficiency: 0.85, rateLimit_per_h: 0.1 },
      scatter: 0.03,
    },
  ],
}
