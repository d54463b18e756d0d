/** How many runs of how many years tell enough, where nobody says. */
import type { Outpost } from '../outpost/outpost.ts'

/** With a panel many winters count, without one a whole life. */
const USUAL = { panel: { runs: 200, years: 10 }, alone: { runs: 100, years: 15 } }
const Z95_SQUARED = 3.8415
/** A stricter aim than this would want more runs than anyone waits for. */
const MOST_SHARE = 0.995
/** A life is followed for so much longer than it is aimed at. */
const BEYOND_AIM = 1.5

export function usualSize({ aims, supply }: Outpost): { readonly runs: number; readonly years: number } {
  const rechargeable = supply.panel !== null && supply.charger !== null
  const usual = rechargeable ? USUAL.panel : USUAL.alone
  const aimed = aims.years === null ? 0 : Math.ceil(aims.years * (rechargeable ? 1 : BEYOND_AIM))
  // So many that an aim can be answered with yes where nothing goes wrong: Wilson's lower bound for n of n is n/(n + z²).
  const share = Math.min(aims.winters ?? 0, MOST_SHARE)
  const needed = Math.ceil((Z95_SQUARED * share) / (1 - share)) + 1
  return { years: Math.max(usual.years, aimed), runs: Math.max(usual.runs, needed) }
}
