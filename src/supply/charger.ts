/**
 * Where a charger holds the panel and what then flows into the pack. Volts and amperes at the panel's and the pack's
 * terminals; currents positive from the panel and into the pack. By day a charger feeds itself from the panel, which
 * its efficiency or drop-out contains; in the dark its quiescent current comes from the pack.
 */
import { brent } from '../numeric/root.ts'
import { currentAt, type FiveParameters, maximumPower, openCircuit_V, voltageAt } from './single-diode.ts'
import type { Charger, ChargeWindow } from './supply.ts'

export interface OperatingPoint {
  readonly panel_V: number
  readonly panel_A: number
  readonly cell_A: number
}

/** The pack as a charger meets it, in volts of the whole pack: `full_V` is the charger's, times cells in series. */
export interface ChargedPack {
  readonly open_V: number
  readonly resistance_Ohm: number
  readonly full_V: number
}

/** `bulk`: all that the panel gives; `limited`: the charger's current limit; `taper`: held at the full voltage. */
export type ChargePhase = 'bulk' | 'limited' | 'taper' | 'full' | 'dark'

/** What the charger would pass with no limit of its own and a pack far from full, at a pack voltage above zero. */
export function unlimitedCurrent_A(charger: Charger<number>, panel: FiveParameters, pack_V: number): number {
  if (charger.kind === 'maximum-power') return (maximumPower(panel).power_W * charger.efficiency) / pack_V
  return Math.max(0, currentAt(panel, pack_V + dropOf(charger)))
}

/** A share of the whole below which a difference is rounding. */
const ROUNDING = 1e-12

/** The point at a voltage on the pack's terminals, where no more than `most_A` may flow into it. */
export function operatingPoint(
  charger: Charger<number>,
  panel: FiveParameters,
  pack_V: number,
  most_A = Infinity,
): OperatingPoint {
  const free_A = unlimitedCurrent_A(charger, panel, pack_V)
  const cell_A = Math.max(0, Math.min(free_A, most_A, limitOf(charger)))
  switch (charger.kind) {
    case 'diode': // nothing in series can throttle it: what the pack may not have, the shunt burns
      return free_A > 0 ? { panel_V: pack_V + charger.drop_V, panel_A: free_A, cell_A } : idlePoint(panel)
    case 'linear': // a throttled pass element lets the panel rise towards open circuit
      return {
        panel_V: cell_A > 0 ? voltageAt(panel, cell_A) : openCircuit_V(panel),
        panel_A: cell_A,
        cell_A,
      }
    case 'maximum-power': {
      const best = maximumPower(panel)
      if (cell_A >= free_A * (1 - ROUNDING))
        return { panel_V: best.voltage_V, panel_A: best.current_A, cell_A }
      // A converter that needs less moves the panel up, away from its best point.
      const needed_W = (cell_A * pack_V) / charger.efficiency
      const surplus_W = (current_A: number) => current_A * voltageAt(panel, current_A) - needed_W
      const panel_A = brent(surplus_W, 0, best.current_A, ROUNDING * best.current_A)
      return { panel_V: voltageAt(panel, panel_A), panel_A, cell_A }
    }
  }
}

/**
 * The point with a real pack: its terminals rise with the current that enters, up to `full_V`, where the charger
 * holds them and the current falls to (full − open)/R: constant current, then constant voltage.
 */
export function chargingPoint(
  charger: Charger<number>,
  panel: FiveParameters,
  pack: ChargedPack,
): OperatingPoint & { readonly pack_V: number; readonly phase: ChargePhase } {
  const { open_V, resistance_Ohm, full_V } = pack
  const limit_A = limitOf(charger)
  const taper_A = taperLimit_A(pack)
  const at = (pack_V: number, phase: ChargePhase) => ({
    ...operatingPoint(charger, panel, pack_V, taper_A),
    pack_V,
    phase,
  })
  if (!(unlimitedCurrent_A(charger, panel, open_V) > 0)) return at(open_V, 'dark')
  if (taper_A === 0) return at(open_V, 'full')
  const given_A = (pack_V: number) => Math.min(unlimitedCurrent_A(charger, panel, pack_V), limit_A)
  if (resistance_Ohm === 0) return at(open_V, given_A(open_V) < limit_A ? 'bulk' : 'limited')
  if (given_A(full_V) >= taper_A) return at(full_V, 'taper')
  const pack_V = brent((v) => given_A(v) - (v - open_V) / resistance_Ohm, open_V, full_V)
  return at(pack_V, given_A(pack_V) < limit_A ? 'bulk' : 'limited')
}

/** Largest current into a pack whose terminals are held at `full_V`; zero when it is full, unbounded without resistance. */
export const taperLimit_A = ({ open_V, resistance_Ohm, full_V }: ChargedPack): number =>
  open_V < full_V ? (full_V - open_V) / resistance_Ohm : 0

/** Whether the cell may be charged at its temperature; a primary cell (no window) never. */
export const mayCharge = (window: ChargeWindow | null, cell_C: number): boolean =>
  window !== null && cell_C >= window.low_C && cell_C <= window.high_C

/** Between panel and pack, in volts. */
const dropOf = (charger: Exclude<Charger<number>, { kind: 'maximum-power' }>): number =>
  charger.kind === 'diode' ? charger.drop_V : charger.dropOut_V

const limitOf = (charger: Charger<number>): number => (charger.kind === 'diode' ? Infinity : charger.limit_A)

const idlePoint = (panel: FiveParameters): OperatingPoint => ({
  panel_V: openCircuit_V(panel),
  panel_A: 0,
  cell_A: 0,
})
