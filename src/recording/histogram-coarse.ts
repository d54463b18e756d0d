/** The time in each of a few bins of current, as a drawing shows it: alike on a logarithmic scale. */
import type { HistogramBar } from './distribution.ts'

export interface CoarseHistogram {
  /** One more than there are bins, rising, above zero; empty where no current is above zero. */
  readonly edges_A: readonly number[]
  /** Seconds in each. */
  readonly duration_s: readonly number[]
  /** What flowed in them, within 0.8 %. */
  readonly charge_C: readonly number[]
  /** Seconds at zero or below, which a logarithmic scale has no place for. */
  readonly notAbove_s: number
}

/**
 * `perDecade` bins to a factor of ten, at whole steps of the scale. A fine bar that an edge cuts is taken as spread evenly
 * over its width, of 1.6 % at most.
 */
export function coarseHistogram(bars: readonly HistogramBar[], perDecade: number): CoarseHistogram {
  const above = bars.filter(({ low_A }) => low_A > 0)
  const notAbove_s = bars.reduce((sum, { low_A, duration_s }) => (low_A > 0 ? sum : sum + duration_s), 0)
  if (above.length === 0) return { edges_A: [], duration_s: [], charge_C: [], notAbove_s }
  const place = (current_A: number) => Math.log10(current_A) * perDecade
  const first = Math.floor(place(above[0].low_A))
  const last = Math.max(Math.ceil(place(above[above.length - 1].high_A)), first + 1)
  const edges_A = Array.from({ length: last - first + 1 }, (_, k) => 10 ** ((first + k) / perDecade))
  const duration = new Float64Array(last - first)
  const charge = new Float64Array(last - first)
  for (const { low_A, high_A, duration_s } of above)
    for (let k = Math.floor(place(low_A)) - first; k < duration.length && edges_A[k] < high_A; k++) {
      const inside = Math.min(high_A, edges_A[k + 1]) - Math.max(low_A, edges_A[k])
      if (inside <= 0) continue
      const held_s = (duration_s * inside) / (high_A - low_A)
      duration[k] += held_s
      charge[k] += (held_s * (low_A + high_A)) / 2
    }
  return { edges_A, duration_s: [...duration], charge_C: [...charge], notAbove_s }
}
