/** A source of charge and nothing else, for sums on paper: constant voltage, no losses, the same at any temperature. */
import { COULOMBS_PER_mAh, type Family } from './family.ts'

export const idealFamily: Family = {
  chemistry: 'ideal',
  sizedByCapacity: true,
  source: 'by definition',
  cells: [
    {
      name: 'ideal',
      chemistry: 'ideal',
      capacity_C: 1000 * COULOMBS_PER_mAh,
      wells: { c: 1, k_per_s: 0 },
      openCircuit_V: { x: [0, 1], y: [3.7, 3.7] },
      openCircuit_V_per_K: 0,
      // Too small to matter, yet not zero, so that whoever divides by it may.
      resistance_Ohm: { x: [0, 1], y: [1e-6, 1e-6] },
      resistanceFactor: { x: [0, 20], y: [1, 1] },
      resistanceAgeing: 1,
      capacityFactor: { x: [0, 20], y: [1, 1] },
      selfDischarge_per_year: 0,
      activation_eV: 0,
      calendarFade_per_year: 0,
      cycleFade: 0,
      cutOff_V: 0,
      charging: null,
      scatter: 0,
    },
  ],
}
