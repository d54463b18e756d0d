/**
 * A panel in the field: its five parameters moved from reference conditions to any light and temperature (De Soto,
 * Klein & Beckman 2006, "Improvement and validation of a model for photovoltaic array performance", equations 7 to 13).
 * Irradiance in W/m² on the panel's plane, cell temperature in °C.
 */
import { type FiveParameters, openCircuit_V } from './single-diode.ts'
import type { Panel } from './supply.ts'

const REFERENCE_W_m2 = 1000
export const REFERENCE_K = 298.15
/** Less than starlight gives is no light: below it a photocurrent drowns in rounding. */
const DARK_W_m2 = 1e-9
const ZERO_C_K = 273.15
/** k/q, in eV/K, exact since the SI of 2019. */
export const BOLTZMANN_eV_K = 8.617333262e-5
/** Silicon's band gap falls by this share a kelvin (De Soto, Klein & Beckman 2006, equation 10). */
export const BAND_GAP_FALL_per_K = 0.0002677

/** Parameters at 1000 W/m² and 25 °C, and what is needed to move them. */
export interface ReferenceParameters extends FiveParameters {
  /** Change of the photocurrent, A/K. */
  readonly photocurrent_A_per_K: number
  /** At 25 °C: silicon's 1.121 eV, or what fits the stated fall of the open-circuit voltage where that cannot. */
  readonly bandGap_eV: number
}

/** ln(I0(T)/I0(25 °C)) over band gap: the slope and the part that does not depend on it (De Soto et al., equation 9). */
export function saturationGrowth(temperature_K: number): { perBandGap: number; fixed: number } {
  const gap = 1 - BAND_GAP_FALL_per_K * (temperature_K - REFERENCE_K) // (10)
  return {
    perBandGap: (1 / REFERENCE_K - gap / temperature_K) / BOLTZMANN_eV_K,
    fixed: 3 * Math.log(temperature_K / REFERENCE_K),
  }
}

/** Irradiance ≥ 0 and a cell temperature above −100 °C, RangeError otherwise. */
export function parametersAt(
  reference: ReferenceParameters,
  irradiance_W_m2: number,
  cell_C: number,
): FiveParameters {
  if (!(irradiance_W_m2 >= 0)) throw new RangeError(`irradiance is zero or more, not ${irradiance_W_m2} W/m²`)
  if (!(cell_C > -100)) throw new RangeError(`a panel's temperature is above -100 °C, not ${cell_C} °C`)
  const temperature_K = cell_C + ZERO_C_K
  const suns = irradiance_W_m2 < DARK_W_m2 ? 0 : irradiance_W_m2 / REFERENCE_W_m2
  const growth = saturationGrowth(temperature_K)
  const warmer_K = temperature_K - REFERENCE_K
  return {
    photocurrent_A: suns * Math.max(0, reference.photocurrent_A + reference.photocurrent_A_per_K * warmer_K), // (8)
    saturation_A: reference.saturation_A * Math.exp(growth.fixed + growth.perBandGap * reference.bandGap_eV), // (9)
    modifiedIdeality_V: (reference.modifiedIdeality_V * temperature_K) / REFERENCE_K, // (7)
    series_Ohm: reference.series_Ohm, // (13)
    shunt_S: reference.shunt_S * suns, // (12)
  }
}

/**
 * Temperature of the panel's cells: so much above the air as light makes it, in proportion (the nominal operating cell
 * temperature of IEC 61215, stated at 800 W/m²). Still air and no ageing of the mounting; wind makes it cooler.
 */
export const panelCell_C = (rise_K: number, air_C: number, irradiance_W_m2: number): number =>
  air_C + (rise_K * irradiance_W_m2) / 800

/** Open-circuit voltage at 1000 W/m² with the cells as cold as `cell_C`: what a charger's input must bear. */
export const coldOpenCircuit_V = (reference: ReferenceParameters, cell_C: number): number =>
  openCircuit_V(parametersAt(reference, REFERENCE_W_m2, cell_C))

/**
 * What a small panel's data sheet often leaves out, by common practice (from memory): crystalline silicon loses
 * 0.30 % of its open-circuit voltage a kelvin and gains 0.05 % of its current, at about 0.60 V a cell; amorphous
 * silicon 0.33 % and 0.09 %, at about 0.85 V a cell. Cells run 25 K above the air at 800 W/m².
 */
export function usualCoefficients(
  technology: 'crystalline' | 'amorphous',
  openCircuit_V: number,
): Pick<Panel<number>, 'currentCoefficient_per_K' | 'voltageCoefficient_per_K' | 'cellsInSeries' | 'rise_K'> {
  const crystalline = technology === 'crystalline'
  return {
    currentCoefficient_per_K: crystalline ? 0.0005 : 0.0009,
    voltageCoefficient_per_K: crystalline ? -0.003 : -0.0033,
    cellsInSeries: Math.max(1, Math.round(openCircuit_V / (crystalline ? 0.6 : 0.85))),
    rise_K: 25,
  }
}
