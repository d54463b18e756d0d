/** From a drawn design to a plan: everything costly is worked out here, once a run. */
import { valueAt } from '../numeric/curve.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { calendarFade_per_s, cycleFade_per_C, fadeAtAge } from '../supply/ageing.ts'
import { neededOpen_V } from '../supply/brown-out.ts'
import { resistance_Ohm } from '../supply/cell.ts'
import { packAsCell } from '../supply/cell-pack.ts'
import { fitPanel } from '../supply/fit-panel.ts'
import { wellFactors } from '../supply/kinetic.ts'
import { panelTable, type TableUse, tableUse } from '../supply/panel-table.ts'
import { shareKept } from '../supply/self-discharge.ts'
import type { Cell, Pack, Panel } from '../supply/supply.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import { momentsOf } from '../wake/moments.ts'
import { downCurrent_A, extraByStep_C, packCurrent_A, peakLoads, standing } from './load.ts'
import {
  type Charging,
  inOneShape,
  LOW_C,
  type Plan,
  RESISTANCE_CELLS,
  STATE_CELLS,
  TEMPERATURE_CELLS,
  VOLTAGE_CELLS,
} from './plan.ts'

const SECONDS_PER_HOUR = 3600
const SECONDS_PER_DAY = 86_400
/** An ideal cell has none, but the taper divides by it. */
const LEAST_Ohm = 1e-9
/** Half the charge left, mild weather: where the voltage under a wake's load is worked out. */
const MIDDLE = { state: 0.5, temperature_C: 20 }

/** A panel's table over a span of voltages, or a memo of it. */
export type PanelTabler = typeof tablePanel

export const tablePanel = (panel: Panel<number>, holds: TableUse['holds'], low_V: number, high_V: number) =>
  panelTable(fitPanel(panel), holds, low_V, high_V)

/** What a charger may add to the pack's voltage on the way to the panel. */
const ROOM_FOR_DROP_V = 1.5

/**
 * The plan of a drawn design for steps of `step_s`; `rows` are its expected wakes. Where plans are made in haste, only
 * one node in `spacing` (a number that divides VOLTAGE_CELLS) of the table over voltage is worked out, and the others lie
 * on lines between.
 */
export function compilePlan(
  outpost: Outpost<number>,
  rows: readonly ExpectedWakes[],
  step_s: number,
  tabler: PanelTabler = tablePanel,
  spacing = 1,
): Plan {
  const { wake, supply } = outpost
  const cell = packAsCell(supply.pack)
  const fade = fadeAtAge(cell, supply.pack.age_s, MIDDLE.temperature_C)
  const { byState, resistanceTop_Ohm } = stateTable(supply.pack, cell)
  const voltageLow_V = Math.max(0.1, 0.5 * byState[0])
  const voltageStep_V = (1.1 * byState[2 * STATE_CELLS] - voltageLow_V) / VOLTAGE_CELLS
  return inOneShape({
    ...stepping(supply.pack, step_s),
    capacity_C: cell.capacity_C,
    initialCharge_C: supply.pack.initial * cell.capacity_C * (1 - fade),
    initialFade: fade,
    available: cell.wells.c,
    byState,
    openCircuit_V_per_K: cell.openCircuit_V_per_K,
    resistanceAgeing: cell.resistanceAgeing,
    cycleFade_per_C: cycleFade_per_C(cell),
    byVoltage: voltageTable(outpost, cell, voltageLow_V, voltageStep_V, spacing),
    voltageLow_V,
    voltageStep_V,
    byResistance: resistanceTable(outpost, resistanceTop_Ohm),
    resistanceTop_Ohm,
    down_A: downCurrent_A(wake, supply, Math.max(byState[0], voltageLow_V)),
    restart_V: supply.brownout.restart_V,
    enclosureRise_K_m2_W: outpost.place.enclosureRise_K / 1000,
    charging: chargingOf(outpost, cell, byState, tabler),
    rows,
  })
}

/** The same plan in steps of another length, its wakes spread evenly over the day: for steps of a day and more. */
export function inSteps(
  plan: Plan,
  pack: Pack<number>,
  rows: readonly ExpectedWakes[],
  step_s: number,
): Plan {
  // Written out, so that the rows too have the shape of all others.
  const even = rows.map(({ below_V, hysteresis_V, wakesPerDay, missedPerDay, reportsPerDay }) => ({
    below_V,
    hysteresis_V,
    wakesPerStep: (wakesPerDay * step_s) / SECONDS_PER_DAY,
    pattern: null,
    wakesPerDay,
    missedPerDay,
    reportsPerDay,
  }))
  return inOneShape({ ...plan, ...stepping(pack, step_s), rows: even })
}

/** All of a plan that depends on the length of its steps, but for the wakes. */
function stepping({ cell }: Pack<number>, step_s: number) {
  const { keep, share, give_s } = wellFactors(step_s, cell.wells.k_per_s, cell.wells.c)
  return { step_s, keep, share, give_s, byTemperature: temperatureTable(cell, step_s) }
}

interface StateTable {
  readonly byState: Float64Array
  readonly resistanceTop_Ohm: number
}

/** No number of these tables is drawn: they are kept with the cell, by cells in series and parallel. */
const stateTables = new WeakMap<Cell, Map<string, StateTable>>()

function stateTable({ cell: one, series, parallel }: Pack<number>, cell: Cell): StateTable {
  return keptWith(stateTables, one, `${series} ${parallel}`, () => {
    const byState = new Float64Array(2 * (STATE_CELLS + 1))
    for (let i = 0; i <= STATE_CELLS; i++) {
      byState[2 * i] = valueAt(cell.openCircuit_V, i / STATE_CELLS)
      byState[2 * i + 1] = Math.max(valueAt(cell.resistance_Ohm, i / STATE_CELLS), LEAST_Ohm)
    }
    return { byState, resistanceTop_Ohm: highestResistance(cell) }
  })
}

const temperatureTables = new WeakMap<Cell, Map<number, Float64Array>>()

function temperatureTable(cell: Cell, step_s: number): Float64Array {
  return keptWith(temperatureTables, cell, step_s, () => {
    const table = new Float64Array(4 * (TEMPERATURE_CELLS + 1))
    for (let i = 0; i <= TEMPERATURE_CELLS; i++) {
      const temperature_C = LOW_C + i
      table[4 * i] = valueAt(cell.capacityFactor, temperature_C)
      table[4 * i + 1] = valueAt(cell.resistanceFactor, temperature_C)
      table[4 * i + 2] = shareKept(cell, temperature_C, step_s)
      table[4 * i + 3] = calendarFade_per_s(cell, temperature_C) * step_s
    }
    return table
  })
}

function keptWith<Key, Value>(
  all: WeakMap<Cell, Map<Key, Value>>,
  cell: Cell,
  key: Key,
  make: () => Value,
): Value {
  const known = all.get(cell) ?? new Map<Key, Value>()
  all.set(cell, known)
  const value = known.get(key) ?? make()
  known.set(key, value)
  return value
}

function voltageTable(
  { wake, supply }: Outpost<number>,
  cell: Cell,
  low_V: number,
  step_V: number,
  spacing: number,
): Float64Array {
  const table = new Float64Array(2 * (VOLTAGE_CELLS + 1))
  const drains = standing(wake, supply)
  const moments = momentsOf(wake)
  const resistance = resistance_Ohm(cell, MIDDLE.state, MIDDLE.temperature_C, 0)
  for (let i = 0; i <= VOLTAGE_CELLS; i += spacing) {
    const open_V = low_V + i * step_V
    const loaded = (current_A: number) => Math.max(open_V - current_A * resistance, low_V / 2)
    table[2 * i] = packCurrent_A(supply, drains, wake.rest_A, open_V)
    table[2 * i + 1] = extraByStep_C(wake, supply, moments, loaded).reduce((sum, extra) => sum + extra, 0)
  }
  return fillBetween(table, spacing)
}

/** Of a nearly empty cell in deep cold and twice its resistance through age. */
function highestResistance(cell: Cell): number {
  const cold = Math.max(...cell.resistanceFactor.y)
  return 2 * cold * Math.max(...cell.resistance_Ohm.y) + 1e-6
}

function resistanceTable({ wake, supply }: Outpost<number>, top_Ohm: number): Float64Array {
  const table = new Float64Array(2 * (RESISTANCE_CELLS + 1))
  const { awake, rest } = peakLoads(wake)
  for (let i = 0; i <= RESISTANCE_CELLS; i++) {
    const path = {
      resistance_Ohm: top_Ohm * (i / RESISTANCE_CELLS) ** 2,
      capacitor: supply.capacitor,
      regulator: supply.regulator,
    }
    // No voltage will do where the regulator's output lies below the brown-out threshold.
    const needed = (load: typeof rest) => neededOpen_V(path, load, supply.brownout.at_V) ?? Number.MAX_VALUE
    table[2 * i + 1] = needed(rest)
    table[2 * i] = awake.reduce((most, load) => Math.max(most, needed(load)), table[2 * i + 1])
  }
  return table
}

/** Straight lines between the nodes of a table of pairs that were worked out, one in `spacing`. */
function fillBetween(table: Float64Array, spacing: number): Float64Array {
  for (let i = 0; i < table.length; i++) {
    const past = (i >> 1) % spacing
    if (past === 0) continue
    const before = i - 2 * past
    table[i] = table[before] + (past / spacing) * (table[before + 2 * spacing] - table[before])
  }
  return table
}

function chargingOf(
  { supply, place }: Outpost<number>,
  cell: Cell,
  byState: Float64Array,
  tabler: PanelTabler,
): Charging | null {
  const { panel, charger } = supply
  if (panel === null || charger === null || cell.charging === null) return null
  const { low_C, high_C, coulombicEfficiency, rateLimit_per_h } = cell.charging
  const full_V = Math.min(charger.full_V * supply.pack.series, cell.charging.full_V)
  const bears_A = (rateLimit_per_h * cell.capacity_C) / SECONDS_PER_HOUR
  const use = tableUse(charger)
  return {
    panel: tabler(
      panel,
      use.holds,
      Math.max(0.1, 0.8 * byState[0]),
      1.1 * byState[2 * STATE_CELLS] + ROOM_FOR_DROP_V,
    ),
    drop_V: use.drop_V,
    converter: use.efficiency,
    panelRise_K_m2_W: panel.rise_K / 800,
    clean: 1 - place.soiling,
    low_C,
    high_C,
    full_V,
    fullState: stateAt(byState, full_V),
    coulombicEfficiency,
    limit_A: charger.kind === 'diode' ? bears_A : Math.min(bears_A, charger.limit_A),
    night_A: charger.quiescent_A,
  }
}

/** State of charge at which the open-circuit voltage at 20 °C reaches `open_V`; 1 where it never does. */
function stateAt(byState: Float64Array, open_V: number): number {
  if (byState[2 * STATE_CELLS] <= open_V) return 1
  let i = 0
  while (byState[2 * (i + 1)] < open_V) i++
  const rise = byState[2 * (i + 1)] - byState[2 * i]
  return Math.max(0, (i + (rise > 0 ? (open_V - byState[2 * i]) / rise : 0)) / STATE_CELLS)
}
