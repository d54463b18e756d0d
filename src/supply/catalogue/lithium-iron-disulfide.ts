/** Lithium - iron disulfide, IEC letter F: fits where an LR6 does, light, and good in the cold. */
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

export const lithiumIronDisulfideFamily: Family = {
  chemistry: 'Li-FeS2',
  sizedByCapacity: false,
  source: 'typical data-sheet values, from memory',
  cells: [
    {
      name: 'FR6',
      chemistry: 'Li-FeS2',
      capacity_C: 3000 * COULOMBS_PER_mAh,
      wells: { c: 0.8, k_per_s: 2 * PER_HOUR },
      // At rest, from memory: 1.8 V fresh for the first few per cent only.
      openCircuit_V: {
        x: [0, 0.02, 0.05, 0.1, 0.3, 0.6, 0.9, 0.96, 1],
        y: [1.1, 1.35, 1.48, 1.54, 1.59, 1.63, 1.68, 1.72, 1.8],
      },
      openCircuit_V_per_K: 0,
      resistance_Ohm: { x: [0, 0.1, 0.3, 1], y: [0.5, 0.3, 0.2, 0.16] },
      resistanceFactor: { x: [-40, -30, -20, -10, 0, 20, 60], y: [4.5, 3.2, 2.3, 1.8, 1.4, 1, 0.7] },
      resistanceAgeing: 1,
      capacityFactor: { x: [-40, -30, -20, -10, 0, 20], y: [0.5, 0.72, 0.86, 0.93, 0.97, 1] },
      // Over 90 % after 15 years on the shelf; from memory.
      selfDischarge_per_year: 0.006,
      activation_eV: 0.55,
      calendarFade_per_year: 0,
      cycleFade: 0,
      cutOff_V: 0.9,
      charging: null,
      scatter: 0.03,
    },
  ],
}
