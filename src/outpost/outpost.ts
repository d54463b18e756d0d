/** A whole design as compiled, plain data: what the engine takes in. No text, no units, no positions. */
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Place } from '../sky/place.ts'
import type { Supply } from '../supply/supply.ts'
import type { Wake } from '../wake/wake.ts'

/** What must hold for its owner; null where nothing is asked. */
export interface Aims {
  /** Share of winters survived, 0 to 1. */
  readonly winters: number | null
  readonly reportsPerDay: number | null
  readonly noBrownout: boolean
  /** Years until the cell is replaced. */
  readonly years: number | null
}

export interface Outpost<N = Uncertain> {
  readonly title: string
  readonly wake: Wake<N>
  readonly supply: Supply<N>
  readonly place: Place<N>
  readonly aims: Aims
}
