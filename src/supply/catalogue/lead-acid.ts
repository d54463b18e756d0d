/**
 * Valve-regulated lead-acid (absorbed glass mat), one 2 V cell stated for 1 Ah; six in series are a "12 V" battery.
 * The capacity is that of very low currents, about 5 % above the usual twenty-hour rating.
 */
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

export const leadAcidFamily: Family = {
  chemistry: 'VRLA',
  sizedByCapacity: true,
  source:
    'typical data-sheet values, from memory; wells fitted to Peukert exponent 1.15 between the 20 h and the 1 h rate',
  cells: [
    {
      name: 'VRLA',
      chemistry: 'VRLA',
      capacity_C: 1000 * COULOMBS_PER_mAh,
      wells: { c: 0.575, k_per_s: 0.6 * PER_HOUR },
      // Acid strength falls with the state of charge: nearly a straight line at rest; from memory.
      openCircuit_V: { x: [0, 0.25, 0.5, 0.75, 1], y: [1.94, 1.995, 2.045, 2.095, 2.14] },
      // +0.2 mV/K, from memory.
      openCircuit_V_per_K: 0.0002,
      // 7 Ah, 12 V: about 25 mΩ when charged, so 29 mΩ for a cell of 1 Ah; from memory.
      resistance_Ohm: { x: [0, 0.2, 0.5, 1], y: [0.08, 0.05, 0.035, 0.029] },
      resistanceFactor: { x: [-40, -20, 0, 20, 40], y: [4, 2.2, 1.4, 1, 0.85] },
      resistanceAgeing: 0.2,
      capacityFactor: { x: [-40, -30, -20, -10, 0, 10, 20], y: [0.25, 0.38, 0.5, 0.67, 0.83, 0.93, 1] },
      // 3 % a month; from memory.
      selfDischarge_per_year: 0.36,
      activation_eV: 0.5,
      // 80 % after 5 years on float at 20 °C, and after 250 full cycles; from memory.
      calendarFade_per_year: 0.04,
      cycleFade: 0.0008,
      cutOff_V: 1.75,
      charging: { low_C: -15, high_C: 50, full_V: 2.4, coulombicEfficiency: 0.92, rateLimit_per_h: 0.25 },
      scatter: 0.05,
    },
  ],
}
