/**
 * A number as its writer knew it: exact, or with a stated spread. Base units are SI, except temperature (°C), angle
 * (degrees) and daily irradiation (J/m² a day), which every table of the trade states that way.
 */

/** What a writer can say about one number; `value`, `low`, `typical` … are in base units. */
export type Uncertain =
  | { readonly kind: 'exact'; readonly value: number }
  /** `7 ± 1`: expanded uncertainty with coverage factor 2 (JCGM 100, 6.2), so `u` is half of what was written. */
  | { readonly kind: 'normal'; readonly value: number; readonly u: number }
  /** `a..b`: anywhere between, all alike (JCGM 100, 4.3.7). */
  | { readonly kind: 'uniform'; readonly low: number; readonly high: number }
  /** `< x`: an instrument that read zero; anywhere from 0 to the limit. */
  | { readonly kind: 'below'; readonly limit: number }
  /** `t [a, b]`: the median and the central 90 % interval. */
  | { readonly kind: 'skewed'; readonly typical: number; readonly p5: number; readonly p95: number }

export const exactly = (value: number): Uncertain => ({ kind: 'exact', value })
