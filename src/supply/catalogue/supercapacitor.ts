/**
 * Electric double-layer capacitor, 2.7 V, stated for 10 F: voltage is exactly linear in charge, Q = C U, so its
 * "capacity" is farads × 2.7 V. Time constant (resistance × capacitance) 0.5 s.
 *
 * Simplification: leakage is a rate on the charge left. A real part leaks more in its first days at a voltage and less
 * at low voltage, and its charge redistributes inside for hours.
 */
import type { Family } from './family.ts'

const FULL_V = 2.7
const CAPACITANCE_F = 10

export const supercapacitorFamily: Family = {
  chemistry: 'supercapacitor',
  sizedByCapacity: true,
  source: 'typical data-sheet values of 10 F parts, from memory; linear voltage by definition of capacitance',
  cells: [
    {
      name: 'supercapacitor',
      chemistry: 'supercapacitor',
      capacity_C: CAPACITANCE_F * FULL_V,
      wells: { c: 1, k_per_s: 0 },
      openCircuit_V: { x: [0, 1], y: [0, FULL_V] },
      openCircuit_V_per_K: 0,
      resistance_Ohm: { x: [0, 1], y: [0.05, 0.05] },
      resistanceFactor: { x: [-40, -20, 0, 20, 65], y: [2, 1.5, 1.2, 1, 0.9] },
      // 30 % less capacitance and twice the resistance, the usual end of life; from memory.
      resistanceAgeing: 0.3,
      capacityFactor: { x: [-40, 0, 20], y: [0.95, 0.99, 1] },
      // 10 µA of leakage at 2.7 V in 10 F, after days on charge: half is gone after three weeks; from memory.
      selfDischarge_per_year: 12,
      activation_eV: 0.5,
      calendarFade_per_year: 0.02,
      // 30 % after 500 000 cycles; from memory.
      cycleFade: 6e-7,
      cutOff_V: 0,
      charging: { low_C: -40, high_C: 65, full_V: FULL_V, coulombicEfficiency: 0.99, rateLimit_per_h: 1000 },
      scatter: 0.1,
    },
  ],
}
