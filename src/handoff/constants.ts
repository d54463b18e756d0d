/**
 * Budget constants with their spread: the design drawn again and again from its tolerances, as the outlook does.
 * Run k draws what run k of a forecast with the same seed draws.
 */
import { quantileSorted } from '../numeric/quantile.ts'
import { atBest, drawn, probabilitiesOf } from '../outlook/draw.ts'
import { extraByStep_C, packCurrent_A, standing } from '../outlook/load.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { openCircuit_V, resistance_Ohm } from '../supply/cell.ts'
import { packAsCell } from '../supply/cell-pack.ts'
import { selfDischargeRate_per_s } from '../supply/self-discharge.ts'
import { expectedWakes } from '../wake/expected-wakes.ts'
import { timesOfYear } from '../wake/local-times.ts'
import { momentsOf } from '../wake/moments.ts'
import type { Band, Budget, Obstacle } from './handoff.ts'

/** The battery half full, as in the budget of a forecast. */
const STATE = 0.5
const STEP_s = 3600
const UINT32_MAX = 0xffffffff

export interface Constants {
  readonly budget: Budget
  readonly reports_milli: readonly Band[]
}

/** `year` is a calendar year whose clock changes count as the rule. */
export function constantsOf(outpost: Outpost, seed: number, draws: number, year: number): Constants {
  const times_s = momentsOfYear(outpost, year)
  const best = valuesOf(atBest(outpost), times_s)
  const runs = Array.from({ length: draws }, (_, run) =>
    valuesOf(drawn(outpost, probabilitiesOf(seed, run)), times_s),
  )
  const band = (pick: (values: Values) => number): Band => {
    const sorted = Float64Array.from(runs, pick).sort()
    return {
      low: Math.floor(Math.min(quantileSorted(sorted, 0.05), pick(best))),
      best: Math.round(pick(best)),
      high: Math.ceil(Math.max(quantileSorted(sorted, 0.95), pick(best))),
    }
  }
  return {
    budget: {
      wake_nC: band(({ wake_C }) => 1e9 * wake_C),
      rest_nA: band(({ rest_A }) => 1e9 * rest_A),
      selfDischarge_nA: band(({ selfDischarge_A }) => 1e9 * selfDischarge_A),
      chargerNight_nA: band(({ chargerNight_A }) => 1e9 * chargerNight_A),
      capacity_mC: band(({ capacity_C }) => 1e3 * capacity_C),
    },
    reports_milli: best.reportsPerDay.map((_, row) => band(({ reportsPerDay }) => 1e3 * reportsPerDay[row])),
  }
}

interface Values {
  readonly wake_C: number
  readonly rest_A: number
  readonly selfDischarge_A: number
  readonly chargerNight_A: number
  readonly capacity_C: number
  readonly reportsPerDay: readonly number[]
}

/** No draw changes the times of day, and to look them up in the zone takes long. */
function momentsOfYear({ wake, place }: Outpost, year: number): Float64Array | null {
  const { schedule } = wake.cadence
  if (schedule?.kind !== 'times-of-day') return null
  return timesOfYear(schedule.times, schedule.zone, place.zone_h, year)
}

function valuesOf({ wake, supply, place }: Outpost<number>, times_s: Float64Array | null): Values {
  const cell = packAsCell(supply.pack)
  const temperature_C = place.climate.temperature_C.reduce((sum, t) => sum + t, 0) / 12
  const open_V = openCircuit_V(cell, STATE, temperature_C)
  const ohms = resistance_Ohm(cell, STATE, temperature_C, 0)
  const loaded_V = (current_A: number) => Math.max(open_V - current_A * ohms, open_V / 2)
  const extra_C = extraByStep_C(wake, supply, momentsOf(wake), loaded_V)
  return {
    wake_C: extra_C.reduce((sum, extra) => sum + extra, 0),
    rest_A: packCurrent_A(supply, standing(wake, supply), wake.rest_A, open_V),
    selfDischarge_A: selfDischargeRate_per_s(cell, temperature_C) * STATE * cell.capacity_C,
    chargerNight_A: supply.charger?.quiescent_A ?? 0,
    capacity_C: cell.capacity_C,
    reportsPerDay: expectedWakes(wake, times_s, STEP_s).map(({ reportsPerDay }) => reportsPerDay),
  }
}

/** What does not fit the integers that hold it. */
export function misfits({ wake_nC, rest_nA, capacity_mC }: Budget): Obstacle[] {
  const obstacles: Obstacle[] = []
  if (wake_nC.low < 0)
    obstacles.push({
      code: 'wake-below-rest',
      path: ['rest'],
      message: 'awake, the device draws less than at rest',
      expected: 'a rest current below that of the steps',
      cure: 'measure the rest current on a range that resolves it',
    })
  if (rest_nA.high > UINT32_MAX)
    obstacles.push({
      code: 'rest-too-large',
      path: ['rest'],
      message: `a rest current of ${rest_nA.high / 1e9} A does not fit 32 bits of nanoamperes`,
      expected: 'less than 4.29 A',
      cure: 'check the unit of the rest current and of the standing drains',
    })
  if (capacity_mC.high > UINT32_MAX)
    obstacles.push({
      code: 'capacity-too-large',
      path: ['supply', 'cell'],
      message: `a battery of ${Math.round(capacity_mC.high / 3.6e6)} Ah does not fit 32 bits of millicoulombs`,
      expected: 'less than 1193 Ah',
      cure: 'check the unit of the capacity, and the cells in parallel',
    })
  return obstacles
}
