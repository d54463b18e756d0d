/**
 * Lithium-ion with a graphite anode and a cobalt or nickel-manganese-cobalt cathode, cylindrical or pouch ("LiPo"),
 * stated for 1 Ah with its protection circuit. Never charged below 0 °C: lithium plates on the anode.
 */
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

export const lithiumIonFamily: Family = {
  chemistry: 'Li-ion',
  sizedByCapacity: true,
  source: 'typical data-sheet values of single cells, from memory',
  cells: [
    {
      name: 'Li-ion',
      chemistry: 'Li-ion',
      capacity_C: 1000 * COULOMBS_PER_mAh,
      // 98 % of the low-rate charge at a one-hour rate, before the voltage drop; from memory.
      wells: { c: 0.9, k_per_s: 6 * PER_HOUR },
      // At rest, from memory.
      openCircuit_V: {
        x: [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1],
        y: [3, 3.45, 3.65, 3.73, 3.77, 3.79, 3.83, 3.88, 3.93, 4, 4.08, 4.2],
      },
      openCircuit_V_per_K: 0,
      resistance_Ohm: { x: [0, 0.1, 0.2, 0.5, 1], y: [0.22, 0.15, 0.12, 0.1, 0.1] },
      resistanceFactor: { x: [-40, -30, -20, -10, 0, 10, 20, 40], y: [14, 8, 4.8, 3, 2, 1.4, 1, 0.7] },
      // R doubles by about 80 % of the capacity, the usual end of life; from memory.
      resistanceAgeing: 0.2,
      capacityFactor: { x: [-40, -30, -20, -10, 0, 10, 20], y: [0.25, 0.45, 0.65, 0.8, 0.9, 0.96, 1] },
      // 1 to 2 % a month, protection circuit included; from memory.
      selfDischarge_per_year: 0.18,
      activation_eV: 0.5,
      calendarFade_per_year: 0.03,
      // 80 % after 500 full cycles, the usual promise; from memory.
      cycleFade: 0.0004,
      cutOff_V: 3,
      charging: { low_C: 0, high_C: 45, full_V: 4.2, coulombicEfficiency: 0.995, rateLimit_per_h: 0.5 },
      scatter: 0.03,
    },
  ],
}
