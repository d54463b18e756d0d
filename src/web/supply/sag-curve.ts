/**
 * What the battery gives as it empties, at one temperature: its voltage at rest, how low the worst burst pulls the
 * regulator's input, and what that leaves above a brown-out, as the engine reckons it. Volts; charge as a share of what the
 * battery holds at 20 °C.
 */
import { valueAt } from '../../numeric/curve.ts'
import { peakLoads } from '../../outlook/load.ts'
import type { Outpost } from '../../outpost/outpost.ts'
import { fadeAtAge } from '../../supply/ageing.ts'
import { dip, neededOpen_V, type PeakLoad } from '../../supply/brown-out.ts'
import { openCircuit_V, resistance_Ohm, usableState } from '../../supply/cell.ts'
import { packAsCell } from '../../supply/cell-pack.ts'
import type { Cell } from '../../supply/supply.ts'
import { stepsOf } from '../../wake/outcomes.ts'

type Design = Pick<Outpost<number>, 'wake' | 'supply'>

export interface SagPoint {
  readonly charged: number
  readonly open_V: number
  readonly resistance_Ohm: number
  /** Lowest under any burst; null where the source collapses. */
  readonly lowest_V: number | null
  /** Open-circuit voltage less the least that carries the worst burst; null where no voltage would. */
  readonly margin_V: number | null
}

export interface SagCurve {
  readonly temperature_C: number
  /** From full down to where the cell is empty for as long as it stays so cold. */
  readonly points: readonly SagPoint[]
  /** Charge that the cold withholds, as a share. */
  readonly withheld: number
  /** The charge below which the worst burst browns the device out; null where it never does. */
  readonly failsBelow: number | null
}

/** A burst of the wake by the step it belongs to. */
export interface Burst {
  readonly name: string
  readonly isPeak: boolean
  readonly load: PeakLoad
}

const POINTS = 100
/** As in the engine: a battery put out has lain at this temperature. */
const SHELF_C = 20

export const packOf = ({ supply }: Pick<Design, 'supply'>): { cell: Cell; fade: number } => {
  const cell = packAsCell(supply.pack)
  return { cell, fade: fadeAtAge(cell, supply.pack.age_s, SHELF_C) }
}

export function bursts({ wake }: Pick<Design, 'wake'>): Burst[] {
  const { awake } = peakLoads(wake)
  const names = stepsOf(wake).flatMap(({ name, peak }) => [
    { name, isPeak: false },
    ...(peak === null ? [] : [{ name, isPeak: true }]),
  ])
  return awake.map((load, i) => ({ ...names[i], load }))
}

/** The burst that needs the highest voltage of a half-full battery at `temperature_C`. */
export function worstBurst(design: Design, temperature_C: number): Burst {
  const { cell, fade } = packOf(design)
  const path = pathAt(design, resistance_Ohm(cell, 0.5, temperature_C, fade))
  const need = ({ load }: Burst) => neededOpen_V(path, load, design.supply.brownout.at_V) ?? Infinity
  return bursts(design).reduce((worst, each) => (need(each) > need(worst) ? each : worst))
}

export function sagCurve(design: Design, temperature_C: number): SagCurve {
  const withheld = 1 - valueAt(packOf(design).cell.capacityFactor, temperature_C)
  const points = Array.from({ length: POINTS + 1 }, (_, i) =>
    sagPoint(design, 1 - (i / POINTS) * (1 - withheld), temperature_C),
  )
  const isUp = ({ margin_V }: SagPoint) => margin_V !== null && margin_V >= 0
  return {
    temperature_C,
    points,
    withheld,
    failsBelow: points.find((point) => !isUp(point))?.charged ?? null,
  }
}

/** `charged` 0..1, no less than the cold withholds. */
export function sagPoint(design: Design, charged: number, temperature_C: number): SagPoint {
  const { cell, fade } = packOf(design)
  const { awake, rest } = peakLoads(design.wake)
  const loads = [...awake, rest]
  const state = usableState(cell, charged, temperature_C)
  const open_V = openCircuit_V(cell, state, temperature_C)
  const ohms = resistance_Ohm(cell, state, temperature_C, fade)
  const path = pathAt(design, ohms)
  const dips = loads.map((load) => dip(path, load, open_V))
  const needed = loads.map((load) => neededOpen_V(path, load, design.supply.brownout.at_V))
  return {
    charged,
    open_V,
    resistance_Ohm: ohms,
    lowest_V: dips.reduce<number | null>(
      (low, each) => (low === null || each.kind === 'collapsed' ? null : Math.min(low, each.input_V)),
      Infinity,
    ),
    margin_V: needed.reduce<number | null>(
      (least, each) => (least === null || each === null ? null : Math.min(least, open_V - each)),
      Infinity,
    ),
  }
}

/** The lowest voltage at the regulator's input from which the rail holds; null where no voltage would do. */
export function leastInput_V({ supply }: Pick<Design, 'supply'>): number | null {
  const none: PeakLoad = { base_A: 0, peak_A: 0, peak_s: 0, direct_A: 0 }
  const path = { resistance_Ohm: 0, capacitor: null, regulator: supply.regulator }
  return neededOpen_V(path, none, supply.brownout.at_V)
}

const pathAt = ({ supply }: Pick<Design, 'supply'>, ohms: number) => ({
  resistance_Ohm: ohms,
  capacitor: supply.capacitor,
  regulator: supply.regulator,
})
