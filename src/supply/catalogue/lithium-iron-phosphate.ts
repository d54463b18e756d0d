/**
 * Lithium iron phosphate, stated for 1 Ah. So flat between a tenth and nine tenths that voltage says little about the
 * state of charge. Never charged below 0 °C.
 */
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

export const lithiumIronPhosphateFamily: Family = {
  chemistry: 'LiFePO4',
  sizedByCapacity: true,
  source: 'typical data-sheet values of single cells, from memory',
  cells: [
    {
      name: 'LiFePO4',
      chemistry: 'LiFePO4',
      capacity_C: 1000 * COULOMBS_PER_mAh,
      wells: { c: 0.9, k_per_s: 6 * PER_HOUR },
      // At rest, from memory.
      openCircuit_V: {
        x: [0, 0.03, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 0.97, 1],
        y: [2.5, 2.95, 3.19, 3.23, 3.26, 3.29, 3.32, 3.335, 3.36, 3.5],
      },
      openCircuit_V_per_K: 0,
      resistance_Ohm: { x: [0, 0.1, 0.2, 0.5, 1], y: [0.13, 0.08, 0.065, 0.06, 0.06] },
      resistanceFactor: { x: [-40, -30, -20, -10, 0, 10, 20, 40], y: [18, 10, 6, 3.5, 2.2, 1.4, 1, 0.7] },
      resistanceAgeing: 0.2,
      capacityFactor: { x: [-40, -30, -20, -10, 0, 10, 20], y: [0.2, 0.38, 0.58, 0.74, 0.87, 0.95, 1] },
      // 2 % a month, protection circuit included; from memory.
      selfDischarge_per_year: 0.2,
      activation_eV: 0.5,
      calendarFade_per_year: 0.02,
      // 80 % after 2000 full cycles; from memory.
      cycleFade: 0.0001,
      cutOff_V: 2.5,
      charging: { low_C: 0, high_C: 45, full_V: 3.6, coulombicEfficiency: 0.995, rateLimit_per_h: 0.5 },
      scatter: 0.03,
    },
  ],
}
