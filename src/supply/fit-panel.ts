/**
 * Five parameters from a data sheet. Four conditions are those of De Soto, Klein & Beckman (2006, equations 3 to 6): the
 * curve passes through short circuit, maximum power and open circuit, and its power peaks at the second. Four numbers
 * leave one freedom. De Soto et al. spend it on the fall of the open-circuit voltage with temperature, which then bends
 * the curve by up to 6 % of the short-circuit current (measured, docs/models/panel.md). Here it goes to a usual shunt leak of our choosing,
 * and the temperature coefficient is met by an effective band gap instead, as Villalva, Gazoli & Ruppert Filho
 * (2009, equation 7) meet it by the saturation current.
 *
 * Solved from the inside out, so that no start has to be guessed: for a modified ideality factor a and a series
 * resistance Rs, the three points are linear in the other three unknowns; the peak decides Rs, the shunt a.
 */
import { brent } from '../numeric/root.ts'
import { BOLTZMANN_eV_K, REFERENCE_K, type ReferenceParameters, saturationGrowth } from './panel.ts'
import { checkPanelSheet } from './panel-sheet.ts'
import type { FiveParameters } from './single-diode.ts'
import type { Panel } from './supply.ts'

/**
 * What the shunt takes at open circuit, as a share of the short-circuit current. No source: chosen by us, on two
 * published curves, which 0.55 % to 1.05 % bring within 1 % (docs/models/panel.md, with the error on curves not used).
 */
const USUAL_LEAK = 0.01
/** Warmth at which the voltage coefficient is imposed; De Soto et al. find any of 1 to 10 K good. */
const WARMER_K = 10
/** Ideality per cell that is tried. Below 1 it is no longer a diode's, but rounded data sheets do lead there. */
const IDEALITY = { low: 0.6, high: 2, step: 0.01 }
/** Largest `tilt` of a curve that counts as peaking where the sheet says; rounding leaves about 1e-14. */
const PEAK_TOLERANCE = 1e-9

interface Candidate {
  readonly parameters: FiveParameters
  /** dP/dV at the stated maximum, relative to its current: zero when the curve peaks there. */
  readonly tilt: number
  /** Share of the short-circuit current that the shunt takes at open circuit. */
  readonly leak: number
}

/** The curve through the three points for given a and Rs. Its shunt falls with Rs and may come out below zero. */
function throughThreePoints(sheet: Panel<number>, a: number, series_Ohm: number): FiveParameters {
  const { openCircuit_V, shortCircuit_A, maximumPower_V, maximumPower_A } = sheet
  const fromOpen = (u: number) => Math.exp(openCircuit_V / a) - Math.exp(u / a)
  const short_V = shortCircuit_A * series_Ohm
  const peak_V = maximumPower_V + maximumPower_A * series_Ohm
  // I = I0·fromOpen(u) + (Voc − u)/Rsh at both points: open circuit has been subtracted. Cramer's rule.
  const determinant =
    fromOpen(short_V) * (openCircuit_V - peak_V) - fromOpen(peak_V) * (openCircuit_V - short_V)
  const saturation_A =
    (shortCircuit_A * (openCircuit_V - peak_V) - maximumPower_A * (openCircuit_V - short_V)) / determinant
  const shunt_S = (fromOpen(short_V) * maximumPower_A - fromOpen(peak_V) * shortCircuit_A) / determinant
  const photocurrent_A = saturation_A * Math.expm1(openCircuit_V / a) + shunt_S * openCircuit_V
  return { photocurrent_A, saturation_A, modifiedIdeality_V: a, series_Ohm, shunt_S }
}

function tiltAtPeak(sheet: Panel<number>, p: FiveParameters): number {
  const { maximumPower_V, maximumPower_A } = sheet
  const peak_V = maximumPower_V + maximumPower_A * p.series_Ohm
  const slope_S =
    -(p.saturation_A / p.modifiedIdeality_V) * Math.exp(peak_V / p.modifiedIdeality_V) - p.shunt_S
  return 1 - slope_S * p.series_Ohm + (maximumPower_V * slope_S) / maximumPower_A
}

/** The band gap with which the open-circuit voltage falls as the sheet says, in closed form. */
function effectiveBandGap_eV(sheet: Panel<number>, p: FiveParameters): number {
  const warm_V = sheet.openCircuit_V * (1 + sheet.voltageCoefficient_per_K * WARMER_K)
  const warmSlope_V = (p.modifiedIdeality_V * (REFERENCE_K + WARMER_K)) / REFERENCE_K
  const warmPhoto_A = p.photocurrent_A + sheet.shortCircuit_A * sheet.currentCoefficient_per_K * WARMER_K
  const warmSaturation_A = (warmPhoto_A - p.shunt_S * warm_V) / Math.expm1(warm_V / warmSlope_V)
  const growth = saturationGrowth(REFERENCE_K + WARMER_K)
  return (Math.log(warmSaturation_A / p.saturation_A) - growth.fixed) / growth.perBandGap
}

/** The best curve for one a, or null where even a panel without losses would fill less than the sheet says. */
function candidateAt(sheet: Panel<number>, a: number): Candidate | null {
  const shuntAt = (series_Ohm: number) => throughThreePoints(sheet, a, series_Ohm).shunt_S
  const tiltAt = (series_Ohm: number) => tiltAtPeak(sheet, throughThreePoints(sheet, a, series_Ohm))
  if (shuntAt(0) < 0) return null
  const beyond_Ohm = (sheet.openCircuit_V - sheet.maximumPower_V) / sheet.maximumPower_A
  const most_Ohm = brent(shuntAt, 0, beyond_Ohm * (1 - 1e-9), 1e-15 * beyond_Ohm)
  const atNone = tiltAt(0)
  const atMost = tiltAt(most_Ohm)
  let series_Ohm: number
  if (atNone < 0 !== atMost < 0) series_Ohm = brent(tiltAt, 0, most_Ohm, 1e-15 * most_Ohm)
  else series_Ohm = Math.abs(atNone) < Math.abs(atMost) ? 0 : most_Ohm
  const fitted = throughThreePoints(sheet, a, series_Ohm)
  const parameters = { ...fitted, shunt_S: Math.max(0, fitted.shunt_S) }
  return {
    parameters,
    tilt: tiltAtPeak(sheet, parameters),
    leak: (parameters.shunt_S * sheet.openCircuit_V) / sheet.shortCircuit_A,
  }
}

/**
 * Parameters of a panel from its data sheet, at 1000 W/m² and 25 °C. Throws RangeError on numbers that cannot belong
 * to one panel, saying which.
 */
export function fitPanel(sheet: Panel<number>): ReferenceParameters {
  checkPanelSheet(sheet)
  const at = (ideality: number) =>
    candidateAt(sheet, ideality * sheet.cellsInSeries * BOLTZMANN_eV_K * REFERENCE_K)
  let chosen = at(IDEALITY.low)
  if (chosen === null)
    throw new RangeError(
      `the panel's numbers do not go together: no ${sheet.cellsInSeries} cells of ${sheet.openCircuit_V} V in all ` +
        'fill their curve as well as the point of maximum power says',
    )
  // The leak falls as the ideality rises: stop at the usual one, or where the next curve would no longer peak where
  // the sheet says.
  for (let n = IDEALITY.low; chosen.leak > USUAL_LEAK && n < IDEALITY.high; n += IDEALITY.step) {
    const next = at(n + IDEALITY.step)
    if (next === null || Math.abs(next.tilt) > PEAK_TOLERANCE) break
    const crossed = next.leak <= USUAL_LEAK
    chosen = crossed ? at(brent((x) => at(x)!.leak - USUAL_LEAK, n, n + IDEALITY.step))! : next
    if (crossed) break
  }
  return {
    ...chosen.parameters,
    photocurrent_A_per_K: sheet.shortCircuit_A * sheet.currentCoefficient_per_K,
    bandGap_eV: effectiveBandGap_eV(sheet, chosen.parameters),
  }
}
