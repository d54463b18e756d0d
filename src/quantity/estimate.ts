/** What is known of a measured quantity, alone and together with others (JCGM 100:2008, clause 4). */

/** A value with its standard uncertainty u >= 0, in the same unit. */
export interface Estimate {
  readonly value: number
  readonly u: number
  /** Degrees of freedom of u, at least 1; Infinity where u is taken as known, null where nobody can say. */
  readonly dof: number | null
}

/** Correlation coefficients between quantities: a symmetric matrix, ones on its diagonal. */
export type Correlation = readonly (readonly number[])[]

/** Two sums of the same terms in another order may differ by this. */
const ROUNDING = 1e-12

export function checkEstimates(estimates: readonly Estimate[]): void {
  for (const [i, { value, u, dof }] of estimates.entries()) {
    if (!Number.isFinite(value)) throw new RangeError(`input ${i} has the value ${value}`)
    if (!(u >= 0 && u < Infinity))
      throw new RangeError(`input ${i} has the standard uncertainty ${u}; it must be 0 or more`)
    if (dof !== null && !(dof >= 1))
      throw new RangeError(`input ${i} has ${dof} degrees of freedom; it must be 1 or more`)
  }
}

export function checkCorrelation(correlation: Correlation, size: number): void {
  if (correlation.length !== size || correlation.some((row) => row.length !== size))
    throw new RangeError(`the correlation of ${size} inputs is a matrix of ${size} by ${size}`)
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const r = correlation[i][j]
      if (!(Math.abs(r) <= 1))
        throw new RangeError(`inputs ${i} and ${j} have the correlation ${r}, not in -1..1`)
      if (Math.abs(r - correlation[j][i]) > ROUNDING || (i === j && r !== 1))
        throw new RangeError(`a correlation is symmetric with ones on its diagonal: see inputs ${i} and ${j}`)
    }
}
