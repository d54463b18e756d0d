/**
 * The law of daily clearness: how the days of a month spread about its mean. Clearness is a day's horizontal
 * irradiation over the extraterrestrial one, without unit.
 */
import { bendtLaw } from './clearness-bendt.ts'
import { hollandsHugetLaw } from './clearness-hollands-huget.ts'

export interface ClearnessLaw {
  readonly mean: number
  /** No day is darker than `low` or brighter than `high`. */
  readonly low: number
  readonly high: number
  density(clearness: number): number
  /** Share of days at or below `clearness`, 0..1; 0 and 1 beyond the ends. */
  cdf(clearness: number): number
  /** Clearness that a share `p` of days, 0..1, stays below. */
  quantile(p: number): number
}

export type ClearnessLawName = 'bendt' | 'hollands-huget'

/**
 * The law called `name` with the given monthly mean. `floor` bounds the Bendt law from below; Hollands & Huget start
 * at zero and take no notice of it. RangeError where no such law has that mean.
 */
export const clearnessLaw = (name: ClearnessLawName, mean: number, floor: number): ClearnessLaw =>
  name === 'bendt' ? bendtLaw(mean, floor) : hollandsHugetLaw(mean)
