/**
 * Samplers of the laws that certificates and data sheets imply (JCGM 101:2008, 6.4). A number of an outpost file is
 * drawn with `quantileOf` of spread.ts.
 */
import type { Sampler } from './monte-carlo.ts'

/** Value with a known standard uncertainty (6.4.7). */
export function gaussian(value: number, u: number): Sampler {
  if (!(u >= 0)) throw new RangeError(`a standard uncertainty is 0 or more, not ${u}`)
  return (stream) => value + u * stream.normal()
}

/** Between two limits, all alike (6.4.2). */
export function rectangular(low: number, high: number): Sampler {
  checkLimits(low, high)
  return (stream) => low + (high - low) * stream.uniform()
}

/** Between two limits that are themselves uncertain by ± `inexactness`, at most half their distance (6.4.3). */
export function curvilinearTrapezoid(low: number, high: number, inexactness: number): Sampler {
  checkLimits(low, high)
  if (!(inexactness >= 0 && inexactness <= (high - low) / 2))
    throw new RangeError(`limits ${low} and ${high} cannot be inexact by ${inexactness}`)
  return (stream) => {
    const from = low - inexactness + 2 * inexactness * stream.uniform() // 6.4.3.4
    return from + (low + high - 2 * from) * stream.uniform()
  }
}

/** Swings as a sine between two limits, met at an unknown phase (6.4.6). */
export function arcsine(low: number, high: number): Sampler {
  checkLimits(low, high)
  return (stream) => (low + high) / 2 + ((high - low) / 2) * Math.sin(2 * Math.PI * stream.uniform()) // 6.4.6.4
}

/**
 * Value with a standard uncertainty of few degrees of freedom (6.4.9); Infinity makes it Gaussian. Drawn by the polar
 * method of Bailey (1994), Mathematics of Computation 62, 779–781.
 */
export function scaledT(value: number, u: number, dof: number): Sampler {
  if (dof === Infinity) return gaussian(value, u)
  if (!(u >= 0 && dof > 0)) throw new RangeError(`a t law needs u >= 0 and dof > 0, not ${u} and ${dof}`)
  return (stream) => {
    for (;;) {
      const x = 2 * stream.uniform() - 1
      const y = 2 * stream.uniform() - 1
      const square = x * x + y * y
      if (square < 1 && square > 0)
        return value + u * x * Math.sqrt((dof * (square ** (-2 / dof) - 1)) / square)
    }
  }
}

function checkLimits(low: number, high: number): void {
  if (!(low <= high)) throw new RangeError(`limits rise: ${low} and ${high} do not`)
}
