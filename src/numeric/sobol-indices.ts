/**
 * Sobol' indices from Saltelli's design: two independent samples A and B of N rows, and for each input i the sample AB_i,
 * which is A with its i-th column from B. The share of the variance of f that an input explains alone (first order), and
 * with all its interactions (total).
 */
import { normalQuantile } from './normal.ts'
import type { Stream } from './random.ts'

export interface SobolSamples {
  /** f on the rows of A and of B. */
  readonly a: Float64Array
  readonly b: Float64Array
  /** f on the rows of AB_i, one array an input. */
  readonly ab: readonly Float64Array[]
}

export interface Estimate {
  readonly value: number
  /** 95 % interval; 0 and 1 are no bounds to it, because an estimate may stray beyond. */
  readonly low: number
  readonly high: number
}

export interface SobolIndex {
  readonly first: Estimate
  readonly total: Estimate
}

const Z95 = normalQuantile(0.975)

/**
 * First-order and total index of each input with intervals from `replicates` bootstrap samples of the rows (Archer,
 * Saltelli & Sobol' 1997); null where f does not vary. Intervals are for independent rows: with low-discrepancy rows
 * they are cautious. Throws RangeError on fewer than two rows or samples of unequal length.
 */
export function sobolIndices(samples: SobolSamples, stream: Stream, replicates = 400): SobolIndex[] | null {
  const rows = samples.a.length
  if (rows < 2) throw new RangeError(`indices need two rows at least, not ${rows}`)
  for (const column of [samples.b, ...samples.ab])
    if (column.length !== rows) throw new RangeError(`samples of ${rows} and ${column.length} rows`)
  const whole = estimate(samples, null)
  if (whole === null) return null
  const inputs = samples.ab.length
  const spread = new Float64Array(4 * inputs)
  const chosen = new Uint32Array(rows)
  let counted = 0
  for (let r = 0; r < replicates; r++) {
    for (let j = 0; j < rows; j++) chosen[j] = Math.floor(stream.uniform() * rows)
    const again = estimate(samples, chosen)
    if (again === null) continue
    counted++
    for (let k = 0; k < 2 * inputs; k++) {
      spread[2 * k] += again[k]
      spread[2 * k + 1] += again[k] * again[k]
    }
  }
  const about = (k: number): Estimate => {
    const mean = spread[2 * k] / counted
    const half = Z95 * Math.sqrt(Math.max(0, spread[2 * k + 1] / counted - mean * mean))
    return { value: whole[k], low: whole[k] - half, high: whole[k] + half }
  }
  return samples.ab.map((_, i) => ({ first: about(2 * i), total: about(2 * i + 1) }))
}

/** Pairs of first and total index over the `chosen` rows, or all of them. */
function estimate({ a, b, ab }: SobolSamples, chosen: Uint32Array | null): Float64Array | null {
  const rows = a.length
  const row = (j: number) => (chosen === null ? j : chosen[j])
  let sum = 0
  for (let j = 0; j < rows; j++) sum += a[row(j)] + b[row(j)]
  const mean = sum / (2 * rows)
  let squares = 0
  for (let j = 0; j < rows; j++) squares += (a[row(j)] - mean) ** 2 + (b[row(j)] - mean) ** 2
  const variance = squares / (2 * rows - 1)
  if (!(variance > 1e-24 * mean * mean)) return null
  const indices = new Float64Array(2 * ab.length)
  for (let i = 0; i < ab.length; i++) {
    const mixed = ab[i]
    let first = 0
    let total = 0
    for (let k = 0; k < rows; k++) {
      const j = row(k)
      const change = mixed[j] - a[j]
      first += (b[j] - mean) * change // Saltelli et al. 2010, Comput. Phys. Commun. 181, table 2 (b), f centred
      total += change * change // Jansen 1999; Saltelli et al. 2010, table 2 (f)
    }
    indices[2 * i] = first / rows / variance
    indices[2 * i + 1] = total / rows / (2 * variance)
  }
  return indices
}
