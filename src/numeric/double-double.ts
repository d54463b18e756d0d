/**
 * Sums to about 32 digits: an unevaluated pair hi + lo with |lo| at most half an ulp of hi (Dekker 1971). Prefix sums
 * kept this way can be subtracted without losing the digits of a short span inside a long one.
 */

/** Dekker's splitter for 53-bit numbers, 2^27 + 1. */
const SPLIT = 134217729

/** Rounding error of the product `p = a * b`: a·b = p + error exactly, barring overflow (Dekker 1971; Veltkamp). */
export function productError(a: number, b: number, p: number): number {
  const aBig = SPLIT * a
  const aHigh = aBig - (aBig - a)
  const aLow = a - aHigh
  const bBig = SPLIT * b
  const bHigh = bBig - (bBig - b)
  const bLow = b - bHigh
  return aLow * bLow - (p - aHigh * bHigh - aLow * bHigh - aHigh * bLow)
}

export class DoubleDouble {
  hi: number
  lo: number

  constructor(hi = 0, lo = 0) {
    this.hi = hi
    this.lo = lo
  }

  add(x: number, xLow = 0): this {
    const sum = this.hi + x
    const back = sum - this.hi
    const lost = this.hi - (sum - back) + (x - back) + this.lo + xLow // two-sum (Knuth 1969)
    this.hi = sum + lost
    this.lo = lost - (this.hi - sum)
    return this
  }

  addPair(other: DoubleDouble): this {
    return this.add(other.hi, other.lo)
  }

  subtractPair(other: DoubleDouble): this {
    return this.add(-other.hi, -other.lo)
  }

  addProduct(a: number, b: number): this {
    const product = a * b
    return this.add(product, productError(a, b, product))
  }

  /** This times one double. */
  scale(factor: number): this {
    const product = this.hi * factor
    const lost = productError(this.hi, factor, product) + this.lo * factor
    this.hi = product + lost
    this.lo = lost - (this.hi - product)
    return this
  }

  get value(): number {
    return this.hi + this.lo
  }
}
