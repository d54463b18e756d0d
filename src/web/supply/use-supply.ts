/** The design that the supply's curves are drawn from, and how cold its place gets. */
import type { Outpost } from '../../outpost/outpost.ts'
import { coldestAir_C } from '../../sky/coldest-air.ts'
import { useDesign } from '../verdict/design.ts'

export interface SupplyNow {
  readonly design: Outpost<number>
  readonly coldest_C: number
}

/** Null until a text without errors was read. */
export function useSupply(): SupplyNow | null {
  const now = useDesign()
  return now === null ? null : { design: now.best, coldest_C: coldestAir_C(now.best.place.climate) }
}

/** At which the curves of a mild day are drawn. */
export const MILD_C = 20
