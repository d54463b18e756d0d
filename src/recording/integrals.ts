/**
 * What a stretch of held samples adds up to: charge Σ I·h (C), Σ I²·h (A²s), energy Σ U·I·h (J) and the time in which
 * each is known. A sample that is not a number adds nothing and covers no time.
 */
import { DoubleDouble } from '../numeric/double-double.ts'
import { SampleSums } from './sums.ts'

/** Samples with their holds: `holds_s` one by one, or null when every hold is `interval_s`. */
export interface Held {
  readonly current_A: Float32Array
  readonly voltage_V: Float32Array | null
  readonly interval_s: number
  readonly holds_s: Float64Array | null
}

/** Samples added in one call: short enough that the compiler sees many calls rather than one endless loop. */
const PIECE = 1024

export class Integrals {
  readonly charge_C = new DoubleDouble()
  readonly square_A2s = new DoubleDouble()
  readonly energy_J = new DoubleDouble()
  readonly covered_s = new DoubleDouble()
  readonly energyCovered_s = new DoubleDouble()

  /** Adds samples from … to − 1 with their whole holds. */
  add(held: Held, from: number, to: number): void {
    if (held.holds_s === null) this.addEven(held, from, to)
    else for (let i = from; i < to; i++) this.addPart(held, i, held.holds_s[i])
  }

  /** Adds `part_s` seconds of the hold of sample i. */
  addPart(held: Held, i: number, part_s: number): void {
    const x = held.current_A[i]
    if (x - x !== 0) return
    this.charge_C.addProduct(x, part_s)
    this.square_A2s.addProduct(x * x, part_s)
    this.covered_s.add(part_s)
    const power_W = held.voltage_V === null ? Number.NaN : x * held.voltage_V[i]
    if (power_W - power_W !== 0) return
    this.energy_J.addProduct(power_W, part_s)
    this.energyCovered_s.add(part_s)
  }

  private addEven(held: Held, from: number, to: number): void {
    const sums = new SampleSums()
    for (let at = from; at < to; at += PIECE) sums.add(held.current_A, at, Math.min(at + PIECE, to))
    this.charge_C.addPair(sums.sum.scale(held.interval_s))
    this.square_A2s.addPair(sums.square.scale(held.interval_s))
    this.covered_s.addProduct(sums.count, held.interval_s)
    if (held.voltage_V !== null) this.addEvenEnergy(held, held.voltage_V, from, to)
  }

  private addEvenEnergy(held: Held, voltage_V: Float32Array, from: number, to: number): void {
    const power = new DoubleDouble()
    let known = 0
    for (let i = from; i < to; i++) {
      const power_W = held.current_A[i] * voltage_V[i] // exact: two float32
      if (power_W - power_W !== 0) continue
      known++
      power.add(power_W)
    }
    this.energy_J.addPair(power.scale(held.interval_s))
    this.energyCovered_s.addProduct(known, held.interval_s)
  }

  plus(other: Integrals): this {
    for (const sum of SUMS) this[sum].addPair(other[sum])
    return this
  }

  minus(other: Integrals): this {
    for (const sum of SUMS) this[sum].subtractPair(other[sum])
    return this
  }
}

const SUMS = ['charge_C', 'square_A2s', 'energy_J', 'covered_s', 'energyCovered_s'] as const
