/** What the device takes from the pack: at rest, by one wake, and once browned out. Amperes and coulombs at the pack. */
import type { PeakLoad } from '../supply/brown-out.ts'
import { batteryCurrent_A } from '../supply/regulator.ts'
import type { Supply } from '../supply/supply.ts'
import type { WakeMoments } from '../wake/moments.ts'
import { stepsOf } from '../wake/outcomes.ts'
import type { Drain, Wake } from '../wake/wake.ts'

const sumOf = (drains: readonly Drain<number>[], from: Drain['from']) =>
  drains.reduce((sum, drain) => (drain.from === from ? sum + drain.current_A : sum), 0)

/** Currents that never stop: behind the regulator, and straight from the pack (a capacitor's leakage among them). */
export function standing(wake: Wake<number>, supply: Supply<number>): { rail_A: number; pack_A: number } {
  return {
    rail_A: sumOf(wake.standing, 'rail'),
    pack_A: sumOf(wake.standing, 'cell') + (supply.capacitor?.leakage_A ?? 0),
  }
}

/** Pack current for a current of the device, standing drains included; a stopped regulator passes nothing. */
export function packCurrent_A(
  supply: Supply<number>,
  drains: { rail_A: number; pack_A: number },
  device_A: number,
  pack_V: number,
): number {
  return drains.pack_A + (batteryCurrent_A(supply.regulator, drains.rail_A + device_A, pack_V) ?? 0)
}

/** Charge that each step adds in one wake to what rest would have taken, with the pack at `pack_V` under that load. */
export function extraByStep_C(
  wake: Wake<number>,
  supply: Supply<number>,
  moments: WakeMoments,
  pack_V: (current_A: number) => number,
): number[] {
  const drains = standing(wake, supply)
  const rest_A = packCurrent_A(supply, drains, wake.rest_A, pack_V(0))
  return moments.steps.map(({ levels }) =>
    levels.reduce((sum, { current_A, duration_s }) => {
      const open_A = packCurrent_A(supply, drains, current_A, pack_V(0))
      return sum + (packCurrent_A(supply, drains, current_A, pack_V(open_A)) - rest_A) * duration_s
    }, 0),
  )
}

/** What may brown the device out: each step, and its peak, after the current that flowed before; and rest itself. */
export function peakLoads(wake: Wake<number>): { awake: PeakLoad[]; rest: PeakLoad } {
  const rail_A = sumOf(wake.standing, 'rail')
  const direct_A = sumOf(wake.standing, 'cell')
  const load = (base_A: number, peak_A: number, peak_s: number): PeakLoad => ({
    base_A: rail_A + base_A,
    peak_A: rail_A + peak_A,
    peak_s,
    direct_A,
  })
  let before_A = wake.rest_A
  const awake = stepsOf(wake).flatMap(({ current_A, duration_s, peak }) => {
    const loads = [load(before_A, current_A, duration_s)]
    if (peak !== null) loads.push(load(before_A, peak.current_A, Math.min(peak.duration_s, duration_s)))
    before_A = current_A
    return loads
  })
  return { awake, rest: load(wake.rest_A, wake.rest_A, 3600) }
}
