/** Cells of one chemistry as the catalogue holds them, and the conversions their constants are written in. */
import type { Cell, Chemistry } from '../supply.ts'

export interface Family {
  readonly chemistry: Chemistry
  /** True: sold in any size, so `cells` holds one of a stated capacity to scale from. False: fixed IEC sizes. */
  readonly sizedByCapacity: boolean
  /** Where the constants come from. */
  readonly source: string
  readonly cells: readonly Cell[]
}

export const COULOMBS_PER_mAh = 3.6
export const PER_HOUR = 1 / 3600
