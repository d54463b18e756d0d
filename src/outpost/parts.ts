/** Parts on a shelf, as compiled: cells and panels that a design could be built of, with what each costs. */
import type { Pack, Panel } from '../supply/supply.ts'

/** One number a column: price, weight, size, or whatever the list counts. In base units where it has a unit. */
export type Costs = Readonly<Record<string, number>>

export interface CellPart {
  readonly name: string
  readonly pack: Pack
  readonly costs: Costs
}

export interface PanelPart {
  readonly name: string
  readonly panel: Panel
  readonly costs: Costs
}

export interface PartsList {
  readonly cells: readonly CellPart[]
  /** Empty where the list is for designs without a panel. */
  readonly panels: readonly PanelPart[]
  /** Columns that every part of the list fills in: any of them can be what one wants least of. */
  readonly columns: readonly Column[]
}

export interface Column {
  readonly name: string
  /** What its numbers measure; `count` for plain numbers, as prices are. */
  readonly dimension: 'mass' | 'length' | 'count'
}
