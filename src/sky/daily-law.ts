/**
 * A law of daily clearness: how the days of a month spread about its mean. Clearness is a day's horizontal irradiation
 * over the extraterrestrial one, without unit.
 */

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
