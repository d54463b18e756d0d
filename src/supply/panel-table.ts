/**
 * A panel worked out beforehand on a grid of irradiance, cell temperature and voltage, for an engine that looks it up
 * every hour of thousands of years. Plain data: threads and other languages read the same array. The charger stays out
 * of it (`tableUse`), so that one table serves every draw of an uncertain drop-out or efficiency.
 *
 * What is stored is smooth, so that straight lines between nodes do: below zero amperes it goes on as the panel's curve
 * does and is cut after the look-up; for a maximum-power converter it is power, divided by the pack's voltage after it.
 */
import { parametersAt, type ReferenceParameters } from './panel.ts'
import { currentAt, maximumPower, openCircuit_V } from './single-diode.ts'
import type { Charger } from './supply.ts'

/** How a charger reads the table: what it holds, the voltage to add to the pack's, and what becomes of the result. */
export interface TableUse {
  readonly holds: 'current' | 'power'
  readonly drop_V: number
  readonly efficiency: number
}

export function tableUse(charger: Charger<number>): TableUse {
  switch (charger.kind) {
    case 'maximum-power':
      return { holds: 'power', drop_V: 0, efficiency: charger.efficiency }
    case 'linear':
      return { holds: 'current', drop_V: charger.dropOut_V, efficiency: 1 }
    case 'diode':
      return { holds: 'current', drop_V: charger.drop_V, efficiency: 1 }
  }
}

export interface PanelTable {
  readonly holds: TableUse['holds']
  /** Nodes k = 0 … lightCells at lightTop·(k/lightCells)²: close together where light is weak. */
  readonly lightTop_W_m2: number
  readonly lightCells: number
  readonly low_C: number
  readonly step_K: number
  readonly temperatureCells: number
  readonly low_V: number
  readonly step_V: number
  readonly voltageCells: number
  /** Index ((voltage · (temperatureCells + 1)) + temperature) · (lightCells + 1) + light. */
  readonly values: Float64Array
}

const LIGHT_TOP_W_m2 = 1400
const LIGHT_CELLS = 24
const LOW_C = -40
const HIGH_C = 90
/** A node each so many modified ideality factors of voltage, or as much warmth as moves open circuit by that. */
const USUAL_FINENESS = 1 / 8

/**
 * The table for voltages `low_V` to `high_V` (0 < low < high, RangeError otherwise), −40 °C to +90 °C of the
 * panel's cells and 0 to 1400 W/m². Measured error below 0.3 % of the short-circuit current (docs/models/panel.md); at a
 * fineness of 1/3, which takes a seventh of the time, below 1.5 % and 0.05 % in the mean (docs/models/what-if.md).
 */
export function panelTable(
  panel: ReferenceParameters,
  holds: TableUse['holds'],
  low_V: number,
  high_V: number,
  fineness = USUAL_FINENESS,
): PanelTable {
  if (!(low_V > 0 && low_V < high_V))
    throw new RangeError(`voltages must rise from above zero: got ${low_V} V to ${high_V} V`)
  const fine_V = panel.modifiedIdeality_V * fineness
  const fall_V_per_K = (openCircuit_V(panel) - openCircuit_V(parametersAt(panel, 1000, 35))) / 10
  const temperatureCells = Math.ceil(((HIGH_C - LOW_C) * fall_V_per_K) / fine_V)
  const voltageCells = holds === 'power' ? 1 : Math.ceil((high_V - low_V) / fine_V)
  const step_K = (HIGH_C - LOW_C) / temperatureCells
  const step_V = (high_V - low_V) / voltageCells
  const values = new Float64Array((voltageCells + 1) * (temperatureCells + 1) * (LIGHT_CELLS + 1))
  let at = 0
  for (let v = 0; v <= voltageCells; v++)
    for (let t = 0; t <= temperatureCells; t++)
      for (let k = 0; k <= LIGHT_CELLS; k++) {
        const lit = parametersAt(panel, LIGHT_TOP_W_m2 * (k / LIGHT_CELLS) ** 2, LOW_C + t * step_K)
        values[at++] = holds === 'power' ? maximumPower(lit).power_W : currentAt(lit, low_V + v * step_V)
      }
  return {
    holds,
    lightTop_W_m2: LIGHT_TOP_W_m2,
    lightCells: LIGHT_CELLS,
    low_C: LOW_C,
    step_K,
    temperatureCells,
    low_V,
    step_V,
    voltageCells,
    values,
  }
}

/**
 * Charging current in A with no limit and no taper, times the charger's efficiency still; trilinear between nodes;
 * arguments outside the table are taken at its edge. `irradiance_W_m2` is that on the panel's plane, `cell_C` the panel
 * cells' temperature, `volts_V` the pack's voltage plus `TableUse.drop_V`.
 */
export function tableCurrent(
  table: PanelTable,
  irradiance_W_m2: number,
  cell_C: number,
  volts_V: number,
): number {
  const { lightCells, temperatureCells, voltageCells, values } = table
  const light = Math.min(Math.max(irradiance_W_m2 / table.lightTop_W_m2, 0), 1) * lightCells * lightCells
  const k = Math.min(Math.sqrt(light) | 0, lightCells - 1)
  const kf = (light - k * k) / (2 * k + 1)
  const warmth = Math.min(Math.max((cell_C - table.low_C) / table.step_K, 0), temperatureCells)
  const t = Math.min(warmth | 0, temperatureCells - 1)
  const tf = warmth - t
  const volts = Math.min(Math.max((volts_V - table.low_V) / table.step_V, 0), voltageCells)
  const v = Math.min(volts | 0, voltageCells - 1)
  const vf = volts - v

  const row = lightCells + 1
  const slab = (temperatureCells + 1) * row
  const a = v * slab + t * row + k
  const b = a + slab
  const cold = values[a] + kf * (values[a + 1] - values[a])
  const warm = values[a + row] + kf * (values[a + row + 1] - values[a + row])
  const coldUp = values[b] + kf * (values[b + 1] - values[b])
  const warmUp = values[b + row] + kf * (values[b + row + 1] - values[b + row])
  const low = cold + tf * (warm - cold)
  const high = coldUp + tf * (warmUp - coldUp)
  const value = low + vf * (high - low)
  if (value <= 0) return 0
  return table.holds === 'power' ? value / Math.max(volts_V, table.low_V) : value
}
