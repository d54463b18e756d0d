/**
 * The slow truth beside the step function: every single wake played out, segment by segment, each with the voltage it
 * finds, no tables and no averages over an hour. For checking the engine and for a close look at a few weeks.
 */
import type { Stream } from '../numeric/random.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { calendarFade_per_s, cycleFade_per_C, fadeAtAge, shareLeftByFade } from '../supply/ageing.ts'
import { openCircuit_V, resistance_Ohm, usableState, wellHead } from '../supply/cell.ts'
import { packAsCell } from '../supply/cell-pack.ts'
import { chargingPoint, mayCharge } from '../supply/charger.ts'
import { fitPanel } from '../supply/fit-panel.ts'
import { availableAfter, wellFactors } from '../supply/kinetic.ts'
import { panelCell_C, parametersAt } from '../supply/panel.ts'
import { shareKept } from '../supply/self-discharge.ts'
import { firstWake_s, nextWake, thriftRow } from '../wake/cadence.ts'
import { sampleWake } from '../wake/sample-wake.ts'
import { packCurrent_A, standing } from './load.ts'
import { DARK_W_m2 } from './step.ts'

/** No step moves more than this share of the capacity. */
const FINENESS = 1 / 500

export interface EventRun {
  readonly charge_C: number
  readonly in_C: number
  readonly out_C: number
  readonly wakes: number
  readonly reports: number
}

export interface EventSky {
  /** On the panel's plane, W/m², and air, °C; one value an hour from the start. */
  readonly light_W_m2: Float64Array
  readonly air_C: Float64Array
}

/**
 * Plays a drawn design for as many hours as `sky` has, from 0 h on `startDay` 0..364. The device is taken to stay up:
 * brown-out is not looked at. `times_s` as `timesOfYear` gives them, null for any other schedule.
 */
export function playEvents(
  outpost: Outpost<number>,
  sky: EventSky,
  startDay: number,
  times_s: Float64Array | null,
  stream: Stream,
): EventRun {
  const { wake, supply, place } = outpost
  const cell = packAsCell(supply.pack)
  const drains = standing(wake, supply)
  const panel = supply.panel === null ? null : fitPanel(supply.panel)
  const from_s = startDay * 86_400
  const end_s = sky.light_W_m2.length * 3600
  let fade = fadeAtAge(cell, supply.pack.age_s, 20)
  let charge_C = supply.pack.initial * cell.capacity_C * (1 - fade)
  let available_C = cell.wells.c * charge_C
  let in_C = 0
  let out_C = 0
  let row = 0

  const conditions = (at_s: number) => {
    const hour = Math.min(Math.floor(at_s / 3600), sky.air_C.length - 1)
    const light = sky.light_W_m2[hour]
    const temperature_C = sky.air_C[hour] + (light * place.enclosureRise_K) / 1000
    const state = usableState(cell, wellHead(cell, available_C, cell.capacity_C, fade), temperature_C)
    return {
      lit: light * (1 - place.soiling),
      air_C: sky.air_C[hour],
      temperature_C,
      open_V: openCircuit_V(cell, state, temperature_C),
      resistance: resistance_Ohm(cell, state, temperature_C, fade),
    }
  }

  /** Lets `device_A` flow from `at_s` for `duration_s`, hour by hour. */
  const flow = (at_s: number, duration_s: number, device_A: number) => {
    const until_s = Math.min(at_s + duration_s, end_s)
    for (let now_s = at_s; now_s < until_s - 1e-9; ) {
      const hourEnd_s = 3600 * (Math.floor(now_s / 3600 + 1e-12) + 1)
      const now = conditions(now_s)
      const first_A = packCurrent_A(supply, drains, device_A, now.open_V)
      const loaded_V = Math.max(now.open_V - first_A * now.resistance, now.open_V / 2)
      let load_A = packCurrent_A(supply, drains, device_A, loaded_V)
      let charge_A = 0
      if (panel !== null && supply.charger !== null && cell.charging !== null) {
        if (now.lit < DARK_W_m2) load_A += supply.charger.quiescent_A
        else if (mayCharge(cell.charging, now.temperature_C)) {
          const lit = parametersAt(panel, now.lit, panelCell_C(supply.panel?.rise_K ?? 0, now.air_C, now.lit))
          const full_V = Math.min(supply.charger.full_V * supply.pack.series, cell.charging.full_V)
          const pack = { open_V: now.open_V, resistance_Ohm: now.resistance, full_V }
          charge_A = Math.min(
            chargingPoint(supply.charger, lit, pack).cell_A,
            (cell.charging.rateLimit_per_h * cell.capacity_C) / 3600,
          )
        }
      }
      const efficiency = cell.charging?.coulombicEfficiency ?? 1
      // So short that the voltage hardly moves, a supercapacitor's too.
      const flowing_A = Math.max(load_A, charge_A, 1e-15)
      const length_s = Math.min(until_s - now_s, hourEnd_s - now_s, (FINENESS * cell.capacity_C) / flowing_A)
      const room_C = cell.capacity_C * (1 - fade) - charge_C + load_A * length_s
      charge_A = Math.min(charge_A, Math.max(0, room_C) / efficiency / length_s)
      const net_A = load_A - efficiency * charge_A
      const kept = shareKept(cell, now.temperature_C, length_s)
      const step = wellFactors(length_s, cell.wells.k_per_s, cell.wells.c)
      available_C = availableAfter(step, available_C * kept, charge_C * kept, net_A)
      charge_C = charge_C * kept - net_A * length_s
      in_C += charge_A * length_s
      out_C += load_A * length_s
      const worn =
        calendarFade_per_s(cell, now.temperature_C) * length_s + cycleFade_per_C(cell) * load_A * length_s
      const left = shareLeftByFade(fade, fade + worn)
      fade += worn
      available_C *= left
      charge_C *= left
      now_s += length_s
    }
  }

  let wakes = 0
  let reports = 0
  let at_s = 0
  // A device that keeps local time waits for the first of its times; others begin when they are switched on.
  const switchedOn = { start_s: from_s, end_s: from_s }
  let next_s =
    times_s === null
      ? firstWake_s(wake.cadence, stream)
      : (nextWake(wake.cadence, row, switchedOn, times_s, stream)?.at_s ?? end_s) - from_s
  while (at_s < end_s) {
    flow(at_s, next_s - at_s, wake.rest_A)
    if (next_s >= end_s) break
    const { open_V, resistance } = conditions(next_s)
    row = thriftRow(wake.cadence.thrift, open_V - wake.rest_A * resistance, row)
    const one = sampleWake(wake, ++wakes, stream)
    reports += one.reports
    let now_s = next_s
    for (const { duration_s, current_A } of one.segments) {
      flow(now_s, duration_s, current_A)
      now_s += duration_s
    }
    const work = { start_s: from_s + next_s, end_s: from_s + now_s }
    const next = nextWake(wake.cadence, row, work, times_s, stream)
    at_s = now_s
    next_s = next === null ? end_s : next.at_s - from_s
  }
  return { charge_C, in_C, out_C, wakes, reports }
}
