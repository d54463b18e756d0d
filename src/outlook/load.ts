/** What the device takes from the pack: at rest, by one wake, and once browned out. Amperes and coulombs at the pack. */
import type { Flow, PeakLoad } from '../supply/brown-out.ts'
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

/**
 * What flows once the device has browned out: standing drains, and the regulator's own current with them. As it may go on
 * running, it is taken to, at the lowest voltage at which that can be: of an empty pack, `empty_V`, or its own lowest input.
 * One that has stopped draws less, and how much less no data sheet promises.
 */
export function downCurrent_A(wake: Wake<number>, supply: Supply<number>, empty_V: number): number {
  const { regulator } = supply
  const lowest_V = 'minimum_V' in regulator ? Math.max(regulator.minimum_V, empty_V) : empty_V
  return packCurrent_A(supply, standing(wake, supply), 0, lowest_V)
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

/**
 * What may brown the device out: each step, and its peak, after all that flowed since the wake began, and rest itself. Every
 * step has its turn, a peak comes first in it, and a failed try of it may last longer. The ends of steps are enough: where the
 * capacitor fills up within a step, it was lower at the end of a heavier one before.
 */
export function peakLoads(wake: Wake<number>): { awake: PeakLoad[]; rest: PeakLoad } {
  const rail_A = sumOf(wake.standing, 'rail')
  const direct_A = sumOf(wake.standing, 'cell')
  const base_A = rail_A + wake.rest_A
  const load = (before: readonly Flow[], { current_A, duration_s }: Flow): PeakLoad => ({
    base_A,
    before,
    peak_A: current_A,
    peak_s: duration_s,
    direct_A,
  })
  let before: readonly Flow[] = []
  const awake = stepsOf(wake).flatMap((step) => {
    const duration_s = Math.max(step.duration_s, step.retries?.failedDuration_s ?? 0)
    const flow = (current_A: number, lasts_s: number): Flow => ({
      current_A: rail_A + current_A,
      duration_s: lasts_s,
    })
    const peak = step.peak && flow(step.peak.current_A, Math.min(step.peak.duration_s, duration_s))
    const sofar = peak === null ? before : [...before, peak]
    const rest = flow(step.current_A, duration_s - (peak?.duration_s ?? 0))
    const loads = [load(sofar, rest), ...(peak === null ? [] : [load(before, peak)])]
    before = [...sofar, rest]
    return loads
  })
  return { awake, rest: load([], { current_A: base_A, duration_s: 3600 }) }
}
