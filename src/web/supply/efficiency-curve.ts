/** What of the battery's power reaches the rail, over the current drawn there: with and without the regulator's own needs. */
import { batteryCurrent_A, efficiencyAt, passesThrough, railVoltage_V } from '../../supply/regulator.ts'
import type { Regulator } from '../../supply/supply.ts'

type Real = Exclude<Regulator<number>, { kind: 'none' }>

export interface EfficiencyPoint {
  readonly rail_A: number
  /** As the curve has it; null for a linear regulator, and where the input is passed through. */
  readonly converter: number | null
  /** Power out over power in, quiescent current included; null where the regulator has stopped. */
  readonly whole: number | null
}

const POINTS = 80

export function efficiencyCurve(
  regulator: Real,
  battery_V: number,
  low_A: number,
  high_A: number,
): EfficiencyPoint[] {
  return Array.from({ length: POINTS + 1 }, (_, i) =>
    efficiencyPoint(regulator, battery_V, low_A * (high_A / low_A) ** (i / POINTS)),
  )
}

/** `rail_A` > 0, `battery_V` > 0. */
export function efficiencyPoint(regulator: Real, battery_V: number, rail_A: number): EfficiencyPoint {
  const rail_V = railVoltage_V(regulator, battery_V)
  const battery_A = batteryCurrent_A(regulator, rail_A, battery_V)
  const isConverting = regulator.kind !== 'linear' && !passesThrough(regulator, battery_V)
  return {
    rail_A,
    converter: isConverting ? efficiencyAt(regulator, rail_A) : null,
    whole: rail_V === null || battery_A === null ? null : (rail_A * rail_V) / (battery_A * battery_V),
  }
}
