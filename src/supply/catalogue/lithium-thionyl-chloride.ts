/**
 * Lithium - thionyl chloride, bobbin build: the flattest voltage and the longest shelf life, for small currents.
 *
 * Simplification: a real cell that has rested grows a passivation film, and its voltage dips for seconds at the next
 * burst, the more the longer, warmer and fuller it rested. Here the film is a standing extra resistance, part of the
 * fresh value and of the steep rise in the cold; the dip's recovery in time is not modelled.
 */
import { COULOMBS_PER_mAh, type Family, PER_HOUR } from './family.ts'

export const lithiumThionylFamily: Family = {
  chemistry: 'Li-SOCl2',
  sizedByCapacity: false,
  source:
    'typical data-sheet values of bobbin cells, from memory; passivation as a standing extra resistance',
  cells: [
    {
      name: 'ER14505',
      chemistry: 'Li-SOCl2',
      capacity_C: 2600 * COULOMBS_PER_mAh,
      // About half of the charge at 100 mA, all of it at a few mA; from memory.
      wells: { c: 0.4, k_per_s: 0.15 * PER_HOUR },
      // At rest, from memory.
      openCircuit_V: {
        x: [0, 0.01, 0.03, 0.05, 0.1, 0.5, 1],
        y: [2, 2.9, 3.4, 3.53, 3.61, 3.65, 3.67],
      },
      // −0.23 mV/K: entropy of Li + SOCl2, from memory.
      openCircuit_V_per_K: -0.00023,
      resistance_Ohm: { x: [0, 0.05, 0.1, 0.3, 1], y: [40, 18, 11, 7, 5] },
      resistanceFactor: { x: [-55, -40, -20, 0, 20, 60], y: [18, 10, 4.5, 2, 1, 0.6] },
      resistanceAgeing: 1,
      capacityFactor: { x: [-55, -40, -20, 0, 20], y: [0.4, 0.6, 0.82, 0.95, 1] },
      // About 1 % a year at rest; from memory.
      selfDischarge_per_year: 0.01,
      activation_eV: 0.55,
      calendarFade_per_year: 0,
      cycleFade: 0,
      cutOff_V: 2,
      charging: null,
      scatter: 0.03,
    },
  ],
}
