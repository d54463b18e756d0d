/**
 * When the battery is too low for another wake: the voltage at which, in the nights of the coldest month, the heaviest
 * burst would pull the rail down to the brown-out threshold, or the cell is empty, whichever comes first on the way down.
 * Volts at the pack, °C. Best values throughout; nothing is added for the error of a converter.
 */
import { brent } from '../numeric/root.ts'
import { packCurrent_A, peakLoads, standing } from '../outlook/load.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { fadeAtAge } from '../supply/ageing.ts'
import { neededOpen_V, type PeakLoad } from '../supply/brown-out.ts'
import { openCircuit_V, resistance_Ohm } from '../supply/cell.ts'
import { packAsCell } from '../supply/cell-pack.ts'
import { stepsOf } from '../wake/outcomes.ts'
import type { Latch, Obstacle } from './handoff.ts'
import { atLeast_mV, atMost_mV } from './millivolts.ts'

/** Mild weather: in which the age at the start was spent, as elsewhere, and to which the nights are compared. */
const MILD_C = 20
/** States looked at on the way down; between two of them the crossing is found exactly. */
const STATES = 200

const NO_LOAD: PeakLoad = { base_A: 0, peak_A: 0, peak_s: 1, direct_A: 0 }

export type LatchResult = { readonly latch: Latch } | { readonly obstacle: Obstacle }

export function latchOf(outpost: Outpost<number>): LatchResult {
  const { wake, supply } = outpost
  const temperature_C = coldestNight_C(outpost)
  const night = batteryAt(outpost, temperature_C)
  const mild = batteryAt(outpost, MILD_C)
  if (night.spare_V(1) < 0) return { obstacle: neverUp(night.open_V(1), temperature_C) }
  const state = fallsBelowZero(night.spare_V)
  const open_V = night.open_V(state ?? 0)
  const rest_A = packCurrent_A(supply, standing(wake, supply), wake.rest_A, open_V)
  const low_V = open_V - rest_A * night.resistance_Ohm(state ?? 0)
  const stopsInMild = fallsBelowZero((s) => mild.open_V(s) - low_V) ?? 0
  // At the brink of a brown-out a wake still succeeds; an empty cell reads its last voltage and is low.
  const low_mV = state === null ? atMost_mV(low_V) + 1 : atLeast_mV(low_V)
  return {
    latch: {
      brownout_mV: atLeast_mV(neededFrom({ ...supply, capacitor: null }, 0, NO_LOAD)),
      low_mV,
      restart_mV: Math.max(low_mV, atLeast_mV(supply.brownout.restart_V)),
      because: state === null ? 'the cell is empty' : night.heaviest(state),
      temperature_C,
      heldBack: Math.max(0, stopsInMild - (fallsBelowZero(mild.spare_V) ?? 0)),
    },
  }
}

/** The battery at one temperature over its state of charge, and what the device leaves of its voltage. */
function batteryAt({ wake, supply }: Outpost<number>, temperature_C: number) {
  const cell = packAsCell(supply.pack)
  const fade = fadeAtAge(cell, supply.pack.age_s, MILD_C)
  const loads = loadsByName(wake)
  const open_V = (state: number) => openCircuit_V(cell, state, temperature_C)
  const ohms = (state: number) => resistance_Ohm(cell, state, temperature_C, fade)
  const needed_V = (state: number, load: PeakLoad) => neededFrom(supply, ohms(state), load)
  return {
    open_V,
    resistance_Ohm: ohms,
    spare_V: (state: number) => open_V(state) - Math.max(...loads.map(({ load }) => needed_V(state, load))),
    heaviest: (state: number) =>
      loads.reduce((a, b) => (needed_V(state, b.load) > needed_V(state, a.load) ? b : a)).because,
  }
}

/** The highest state at which `spare`, falling with the state, falls below zero; null where it never does. */
function fallsBelowZero(spare: (state: number) => number): number | null {
  const fails = Array.from({ length: STATES + 1 }, (_, i) => 1 - i / STATES).find((state) => spare(state) < 0)
  if (fails === undefined) return null
  return fails === 1 ? 1 : brent(spare, fails, fails + 1 / STATES)
}

/** Mean of the coldest month less half of its daily range. */
export function coldestNight_C({ place }: Pick<Outpost<number>, 'place'>): number {
  const { temperature_C, dailyRange_K } = place.climate
  return Math.min(...Array.from(temperature_C, (mean, month) => mean - dailyRange_K[month] / 2))
}

function neededFrom(
  { regulator, capacitor, brownout }: Pick<Outpost<number>['supply'], 'regulator' | 'capacitor' | 'brownout'>,
  resistance_Ohm: number,
  load: PeakLoad,
): number {
  return neededOpen_V({ resistance_Ohm, capacitor, regulator }, load, brownout.at_V) ?? Infinity
}

function loadsByName(wake: Outpost<number>['wake']): { because: string; load: PeakLoad }[] {
  const { awake, rest } = peakLoads(wake)
  const names = stepsOf(wake).flatMap(({ name, peak }) => (peak === null ? [name] : [name, name]))
  return [
    { because: 'the rail falls to the brown-out threshold at rest', load: rest },
    ...awake.map((load, i) => ({
      because: `"${names[i]}" pulls the rail down to the brown-out threshold`,
      load,
    })),
  ]
}

const neverUp = (full_V: number, temperature_C: number): Obstacle => ({
  code: 'low-when-full',
  path: ['supply', 'brownout'],
  message: `at ${temperature_C.toFixed(0)} °C even a full battery of ${full_V.toFixed(2)} V browns out in a wake`,
  expected: 'a supply that carries the heaviest step in the nights of the coldest month',
  cure: 'put a capacitor across the input, take cells with less resistance, or lower the brown-out threshold',
})
