/** A panel's curve in some light, its best point, and where the charger really holds it. Volts and amperes of the panel. */
import type { Outpost } from '../../outpost/outpost.ts'
import { openCircuit_V as packOpen_V, resistance_Ohm } from '../../supply/cell.ts'
import { type ChargePhase, chargingPoint, operatingPoint } from '../../supply/charger.ts'
import { fitPanel } from '../../supply/fit-panel.ts'
import { panelCell_C, parametersAt, type ReferenceParameters } from '../../supply/panel.ts'
import {
  currentAt,
  type FiveParameters,
  maximumPower,
  openCircuit_V,
  type PowerPoint,
} from '../../supply/single-diode.ts'
import type { Charger, Panel } from '../../supply/supply.ts'
import { packOf } from './sag-curve.ts'

export interface Light {
  readonly words: string
  readonly irradiance_W_m2: number
  /** Of the panel's own cells. */
  readonly cell_C: number
}

export interface HeldPoint {
  readonly battery: string
  readonly pack_V: number
  readonly panel_V: number
  readonly panel_A: number
  readonly power_W: number
  /** Into the battery. */
  readonly cell_A: number
  readonly phase: ChargePhase
}

export interface PanelCurve extends Light {
  readonly points: readonly (readonly [voltage_V: number, current_A: number])[]
  readonly open_V: number
  readonly best: PowerPoint
  readonly held: readonly HeldPoint[]
}

const POINTS = 80
const SHEET_LIGHT: Light = { words: 'full sun, as on the data sheet', irradiance_W_m2: 1000, cell_C: 25 }
const DULL_W_m2 = 200
/** The battery's states at which the charger is looked at. */
const BATTERY = [
  { words: 'nearly empty', state: 0.1 },
  { words: 'half full', state: 0.5 },
  { words: 'nearly full', state: 0.95 },
] as const
const BATTERY_C = 20

/** Full sun by the data sheet, and a dull day of the coldest month. */
export function lightsFor({ place, supply }: Outpost<number>): Light[] {
  const air_C = Math.min(...place.climate.temperature_C)
  const rise_K = supply.panel?.rise_K ?? 0
  return [
    SHEET_LIGHT,
    {
      words: 'a dull day of the coldest month',
      irradiance_W_m2: DULL_W_m2,
      cell_C: panelCell_C(rise_K, air_C, DULL_W_m2),
    },
  ]
}

/** A fit takes some milliseconds, and the panel is the same from one stroke of a key to the next. */
let fitted: { readonly of: string; readonly parameters: ReferenceParameters } | null = null

/** Throws RangeError, with the reason, on numbers that cannot be those of one panel. */
export function fittedPanel(panel: Panel<number>): ReferenceParameters {
  const of = JSON.stringify(panel)
  if (fitted?.of !== of) fitted = { of, parameters: fitPanel(panel) }
  return fitted.parameters
}

export function panelCurve(design: Outpost<number>, panel: Panel<number>, light: Light): PanelCurve {
  const lit = parametersAt(fittedPanel(panel), light.irradiance_W_m2, light.cell_C)
  const open_V = openCircuit_V(lit)
  const points = Array.from({ length: POINTS + 1 }, (_, i) => {
    const voltage_V = (open_V * i) / POINTS
    return [voltage_V, Math.max(0, currentAt(lit, voltage_V))] as const
  })
  const { charger } = design.supply
  return {
    ...light,
    points,
    open_V,
    best: maximumPower(lit),
    held: charger === null ? [] : BATTERY.map((battery) => heldPoint(design, charger, lit, battery)),
  }
}

function heldPoint(
  { supply }: Outpost<number>,
  charger: Charger<number>,
  lit: FiveParameters,
  battery: (typeof BATTERY)[number],
): HeldPoint {
  const { cell, fade } = packOf({ supply })
  const window = cell.charging
  const full_V = Math.min(charger.full_V * supply.pack.series, window?.full_V ?? Infinity)
  const pack = {
    open_V: packOpen_V(cell, battery.state, BATTERY_C),
    resistance_Ohm: resistance_Ohm(cell, battery.state, BATTERY_C, fade),
    full_V,
  }
  const free = chargingPoint(charger, lit, pack)
  const bears_A = window === null ? 0 : (window.rateLimit_per_h * cell.capacity_C) / 3600
  const held =
    free.cell_A <= bears_A ? free : { ...free, ...operatingPoint(charger, lit, free.pack_V, bears_A) }
  return {
    battery: battery.words,
    pack_V: held.pack_V,
    panel_V: held.panel_V,
    panel_A: held.panel_A,
    power_W: held.panel_V * held.panel_A,
    cell_A: held.cell_A,
    phase: held.phase,
  }
}
