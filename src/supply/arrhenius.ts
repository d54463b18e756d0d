/** How fast a chemical loss goes at a temperature, beside its rate at 20 °C (Arrhenius 1889). */

const BOLTZMANN_eV_PER_K = 8.617333262e-5 // CODATA 2018, exact by the definition of the kelvin
const ABSOLUTE_ZERO_C = -273.15
const REFERENCE_K = 20 - ABSOLUTE_ZERO_C

/** Factor on a rate, 1 at 20 °C. `activation_eV` >= 0, temperature in °C above absolute zero. */
export function arrheniusFactor(activation_eV: number, temperature_C: number): number {
  const temperature_K = temperature_C - ABSOLUTE_ZERO_C
  return Math.exp((activation_eV / BOLTZMANN_eV_PER_K) * (1 / REFERENCE_K - 1 / temperature_K))
}
