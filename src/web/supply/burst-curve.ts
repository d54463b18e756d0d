/** The regulator's input through a burst, with the capacitor and without. Volts, seconds from the start of the burst. */
import type { Outpost } from '../../outpost/outpost.ts'
import { dip } from '../../supply/brown-out.ts'
import { openCircuit_V, resistance_Ohm, usableState } from '../../supply/cell.ts'
import type { Capacitor } from '../../supply/supply.ts'
import { type Burst, packOf } from './sag-curve.ts'

type Design = Pick<Outpost<number>, 'wake' | 'supply'>

export interface BurstPoint {
  readonly at_s: number
  /** Null where the source collapses. */
  readonly with_V: number | null
  readonly without_V: number | null
}

const POINTS = 60

/** Of a battery that holds the share `charged`. The burst that lasts so long has pulled the input down so far. */
export function burstCurve(
  design: Design,
  { load }: Burst,
  charged: number,
  temperature_C: number,
): BurstPoint[] {
  const { cell, fade } = packOf(design)
  const state = usableState(cell, charged, temperature_C)
  const open_V = openCircuit_V(cell, state, temperature_C)
  const ohms = resistance_Ohm(cell, state, temperature_C, fade)
  const input_V = (capacitor: Capacitor<number> | null, peak_s: number) => {
    const { regulator } = design.supply
    const lowest = dip({ resistance_Ohm: ohms, capacitor, regulator }, { ...load, peak_s }, open_V)
    return lowest.kind === 'collapsed' ? null : lowest.input_V
  }
  return Array.from({ length: POINTS + 1 }, (_, i) => {
    const at_s = (load.peak_s * i) / POINTS
    return {
      at_s,
      with_V: input_V(design.supply.capacitor, at_s),
      without_V: input_V(null, at_s),
    }
  })
}
