/**
 * Points of a Sobol' sequence, spread over the unit cube more evenly than random ones (Sobol' 1967; Bratley & Fox,
 * ACM TOMS 14 (1988) 88, algorithm 659), with a random digital shift so that a seed decides where they lie.
 */
import type { Stream } from './random.ts'
import { SOBOL_DIRECTIONS } from './sobol-directions.ts'

export const SOBOL_DIMENSIONS = SOBOL_DIRECTIONS.length + 1
const BITS = 32

/**
 * The first `count` points in `dimensions` (1 to 128), row by row, each number within (0, 1). Any 2^m points from the
 * start on hold one number in every 2^-m of each dimension. Without a `shift` they are the plain sequence, moved by half
 * of the last bit. Throws RangeError on more dimensions or points (2^32) than there are.
 */
export function sobolPoints(count: number, dimensions: number, shift: Stream | null): Float64Array {
  if (!(Number.isInteger(dimensions) && dimensions >= 1 && dimensions <= SOBOL_DIMENSIONS))
    throw new RangeError(`a Sobol' sequence has 1 to ${SOBOL_DIMENSIONS} dimensions here, not ${dimensions}`)
  if (!(Number.isInteger(count) && count >= 0 && count <= 2 ** BITS))
    throw new RangeError(`a Sobol' sequence has 0 to 2^${BITS} points, not ${count}`)
  const points = new Float64Array(count * dimensions)
  for (let d = 0; d < dimensions; d++) {
    const directions = directionsOf(d)
    let bits = shift === null ? 0 : Math.floor(shift.uniform() * 2 ** BITS)
    for (let i = 0; i < count; i++) {
      points[i * dimensions + d] = ((bits >>> 0) + 0.5) / 2 ** BITS
      // Gray-code order (Antonov & Saleev 1979): one direction a point, that of the lowest zero bit of its index.
      bits ^= directions[lowestZero(i)]
    }
  }
  return points
}

/** Where the lowest zero bit of `i` stands. */
const lowestZero = (i: number): number => Math.min(31 - Math.clz32(~i & -~i), BITS - 1)

function directionsOf(dimension: number): Int32Array {
  const v = new Int32Array(BITS)
  if (dimension === 0) {
    for (let i = 0; i < BITS; i++) v[i] = 1 << (BITS - 1 - i)
    return v
  }
  const [polynomial, ...initial] = SOBOL_DIRECTIONS[dimension - 1]
  const degree = initial.length
  for (let i = 0; i < BITS; i++) {
    if (i < degree) {
      v[i] = initial[i] << (BITS - 1 - i)
      continue
    }
    // Bratley & Fox, eq. 2, in terms of the shifted numbers v = m · 2^(32 − i).
    v[i] = v[i - degree] ^ (v[i - degree] >>> degree)
    for (let k = 1; k < degree; k++) if ((polynomial >> (degree - k)) & 1) v[i] ^= v[i - k]
  }
  return v
}
