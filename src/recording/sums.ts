/**
 * Sums of samples and of their squares as double-doubles (two-sum, Knuth 1969; products by Dekker 1971), so that a mean
 * and a deviation keep their digits even where the deviation is a hundred-millionth of the mean. Samples that are not
 * finite are left out and not counted.
 */
import { DoubleDouble, productError } from '../numeric/double-double.ts'

export class SampleSums {
  count = 0
  readonly sum = new DoubleDouble()
  readonly square = new DoubleDouble()

  /** Adds values[from … to − 1]. The square of a float32 is exact in float64; that of a float64 gets its error added. */
  add(values: Float32Array | Float64Array, from: number, to: number): void {
    let count = 0
    let sum = 0
    let sumLow = 0
    let square = 0
    let squareLow = 0
    const exact = values instanceof Float32Array
    for (let i = from; i < to; i++) {
      const x = values[i]
      if (x - x !== 0) continue
      count++
      const nextSum = sum + x
      const sumBack = nextSum - sum
      sumLow += sum - (nextSum - sumBack) + (x - sumBack)
      sum = nextSum
      const product = x * x
      const nextSquare = square + product
      const squareBack = nextSquare - square
      squareLow += square - (nextSquare - squareBack) + (product - squareBack)
      if (!exact) squareLow += productError(x, x, product)
      square = nextSquare
    }
    this.count += count
    this.sum.add(sum, sumLow)
    this.square.add(square, squareLow)
  }

  /** Arithmetic mean; null of no values. */
  mean(): number | null {
    return this.count === 0 ? null : this.sum.value / this.count
  }

  /** Standard deviation with n − 1; null of fewer than two values. */
  deviation(): number | null {
    const n = this.count
    if (n < 2) return null
    return Math.sqrt(centredSquares(this.sum, this.square, n) / (n - 1))
  }
}

/** Σ w(x − m)² = Σ w x² − (Σ w x)² / Σ w, evaluated in double-double so that the difference keeps its digits. */
export function centredSquares(sum: DoubleDouble, square: DoubleDouble, weight: number): number {
  const mean = sum.value / weight
  // Σ w x² − m Σ w x, with the remainder of the rounded mean: (Σ w x − m w) m is of second order and kept.
  const left = new DoubleDouble(square.hi, square.lo)
  left.addPair(new DoubleDouble(sum.hi, sum.lo).scale(-mean))
  const remainder = new DoubleDouble(sum.hi, sum.lo).addProduct(-mean, weight)
  left.addPair(remainder.scale(-mean))
  return Math.max(left.value, 0)
}
