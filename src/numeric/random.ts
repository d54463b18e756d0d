/**
 * Counter-based random streams: Philox 4x32-10 (Salmon, Moraes, Dror & Shaw, "Parallel random numbers: as easy as
 * 1, 2, 3", 2011). Path k of an ensemble draws from stream (seed, k, purpose), so a result does not depend on how
 * many threads share the work or in which order they finish.
 */
import { normalQuantile } from './normal.ts'

export interface Stream {
  /** Uniform on the open interval (0, 1), 53 bits. */
  uniform(): number
  /** Standard normal deviate. */
  normal(): number
}

const M0 = 0xd2511f53
const M1 = 0xcd9e8d57
const W0 = 0x9e3779b9
const W1 = 0xbb67ae85

/** High 32 bits of the 64-bit product of two unsigned 32-bit integers, by 16-bit halves. */
function highProduct(a: number, b: number): number {
  const aLow = a & 0xffff
  const aHigh = a >>> 16
  const bLow = b & 0xffff
  const bHigh = b >>> 16
  const middle = aHigh * bLow + ((aLow * bLow) >>> 16)
  const carry = aLow * bHigh + (middle % 0x10000)
  return (aHigh * bHigh + Math.floor(middle / 0x10000) + Math.floor(carry / 0x10000)) >>> 0
}

/** One block of four 32-bit words: ten rounds over `counter` under `key`, written into `out`. */
export function philox(counter: Uint32Array, key0: number, key1: number, out: Uint32Array): void {
  let [c0, c1, c2, c3] = counter
  let k0 = key0 >>> 0
  let k1 = key1 >>> 0
  for (let round = 0; round < 10; round++) {
    const high0 = highProduct(M0, c0)
    const low0 = Math.imul(M0, c0) >>> 0
    const high1 = highProduct(M1, c2)
    const low1 = Math.imul(M1, c2) >>> 0
    c0 = (high1 ^ c1 ^ k0) >>> 0
    c1 = low1
    c2 = (high0 ^ c3 ^ k1) >>> 0
    c3 = low0
    k0 = (k0 + W0) >>> 0
    k1 = (k1 + W1) >>> 0
  }
  out[0] = c0
  out[1] = c1
  out[2] = c2
  out[3] = c3
}

class PhiloxStream implements Stream {
  private readonly counter = new Uint32Array(4)
  private readonly block = new Uint32Array(4)
  private readonly key0: number
  private readonly key1: number
  private used = 4

  constructor(seed: number, path: number, purpose: number) {
    this.key0 = seed >>> 0
    this.key1 = Math.floor(seed / 2 ** 32) >>> 0
    this.counter[2] = path >>> 0
    this.counter[3] = purpose >>> 0
  }

  private word(): number {
    if (this.used === 4) {
      philox(this.counter, this.key0, this.key1, this.block)
      this.counter[0] = (this.counter[0] + 1) >>> 0
      if (this.counter[0] === 0) this.counter[1]++
      this.used = 0
    }
    return this.block[this.used++]
  }

  uniform(): number {
    const high = this.word() >>> 5
    const low = this.word() >>> 6
    // The half keeps both ends out, so that a quantile function never meets 0 or 1.
    return (high * 67108864 + low + 0.5) / 9007199254740992
  }

  normal(): number {
    return normalQuantile(this.uniform())
  }
}

/**
 * The stream of `purpose` for `path` under `seed`; equal arguments give equal numbers on any machine.
 * `seed` is an integer 0 … 2^53 − 1, `path` and `purpose` integers 0 … 2^32 − 1; anything else throws RangeError.
 */
export function stream(seed: number, path: number, purpose: number): Stream {
  if (!Number.isSafeInteger(seed) || seed < 0)
    throw new RangeError(`a seed is a whole number from 0 to 2^53 - 1, not ${seed}`)
  for (const [name, value] of [
    ['path', path],
    ['purpose', purpose],
  ] as const)
    if (!Number.isInteger(value) || value < 0 || value > 0xffffffff)
      throw new RangeError(`a ${name} is a whole number from 0 to 2^32 - 1, not ${value}`)
  return new PhiloxStream(seed, path, purpose)
}
