/**
 * The kinetic battery model against published and independently computed lifetimes and states; sources and provenance
 * are in truth/kibam/README.md.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { availableAfter, chargeAfter, timeToEmpty, wellFactors } from '../../src/supply/kinetic.ts'

/** Largest deviation allowed, with the cause of the residual. */
const TOLERANCE = {
  publishedLifetime_min: 0.005, // printed to 0.01 min
  computedLifetime_min: 6e-6, // printed to 1e-5 min
  delivered_A_min: 6e-7, // printed to 1e-6 A min
  state_A_min: 1e-8, // the oracle's own: closed form against an ODE solution of 8th order
  limit: 1e-9, // relative: the current is only finitely large
}

interface Job {
  readonly current_A: number
  readonly duration_min: number
}

interface Truth {
  readonly c: number
  readonly k_per_min: number
  readonly lifetimes: readonly {
    readonly id: string
    readonly capacity_A_min: number
    readonly cycle: readonly Job[]
    readonly lifetime_min: number
    readonly provenance: string
  }[]
  readonly constant: readonly {
    readonly id: string
    readonly capacity_A_min: number
    readonly current_A: number
    readonly lifetime_min: number
    readonly delivered_A_min: number
  }[]
  readonly charge_limit_A_min: number
  readonly mixed: readonly (Job & { readonly available_A_min: number; readonly bound_A_min: number })[]
}

const truth: Truth = JSON.parse(
  readFileSync(new URL('../../truth/kibam/kibam.json', import.meta.url), 'utf8'),
)
const { c } = truth
const SECONDS_PER_MINUTE = 60
const k_per_s = truth.k_per_min / SECONDS_PER_MINUTE

/** Minutes until a full battery, put through the jobs again and again, has no available charge left. */
function lifetime_min(capacity_A_min: number, cycle: readonly Job[]): number {
  let charge_C = capacity_A_min * SECONDS_PER_MINUTE
  let available_C = c * charge_C
  let elapsed_s = 0
  for (let job = 0; ; job++) {
    const { current_A, duration_min } = cycle[job % cycle.length]
    const duration_s = duration_min * SECONDS_PER_MINUTE
    const empty_s = timeToEmpty(available_C, charge_C, current_A, k_per_s, c)
    if (empty_s <= duration_s) return (elapsed_s + empty_s) / SECONDS_PER_MINUTE
    const step = wellFactors(duration_s, k_per_s, c)
    available_C = availableAfter(step, available_C, charge_C, current_A)
    charge_C = chargeAfter(step, charge_C, current_A)
    elapsed_s += duration_s
  }
}

describe('kinetic battery model', () => {
  it.each(truth.lifetimes)('$id lives $lifetime_min min', (row) => {
    const tolerance =
      row.provenance === 'computed' ? TOLERANCE.computedLifetime_min : TOLERANCE.publishedLifetime_min
    const error = Math.abs(lifetime_min(row.capacity_A_min, row.cycle) - row.lifetime_min)
    expect(error).toBeLessThanOrEqual(tolerance)
  })

  it.each(truth.constant)('$id lives $lifetime_min min and delivers its charge', (row) => {
    const charge_C = row.capacity_A_min * SECONDS_PER_MINUTE
    const life_min = timeToEmpty(c * charge_C, charge_C, row.current_A, k_per_s, c) / SECONDS_PER_MINUTE
    expect(Math.abs(life_min - row.lifetime_min)).toBeLessThanOrEqual(TOLERANCE.computedLifetime_min)
    expect(Math.abs(life_min * row.current_A - row.delivered_A_min)).toBeLessThanOrEqual(
      TOLERANCE.delivered_A_min,
    )
  })

  it('delivers just the available well at a boundless current', () => {
    const capacity_A_min = truth.charge_limit_A_min / c
    const charge_C = capacity_A_min * SECONDS_PER_MINUTE
    const current_A = 1e12
    const delivered_C = current_A * timeToEmpty(c * charge_C, charge_C, current_A, k_per_s, c)
    const ratio = delivered_C / SECONDS_PER_MINUTE / truth.charge_limit_A_min
    expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(TOLERANCE.limit)
  })

  it('follows a mixed load, charging included, as a numerical integration does', () => {
    let charge_C = 5.5 * SECONDS_PER_MINUTE
    let available_C = c * charge_C
    for (const row of truth.mixed) {
      const step = wellFactors(row.duration_min * SECONDS_PER_MINUTE, k_per_s, c)
      available_C = availableAfter(step, available_C, charge_C, row.current_A)
      charge_C = chargeAfter(step, charge_C, row.current_A)
      const available_A_min = available_C / SECONDS_PER_MINUTE
      const bound_A_min = (charge_C - available_C) / SECONDS_PER_MINUTE
      expect(Math.abs(available_A_min - row.available_A_min)).toBeLessThanOrEqual(TOLERANCE.state_A_min)
      expect(Math.abs(bound_A_min - row.bound_A_min)).toBeLessThanOrEqual(TOLERANCE.state_A_min)
    }
  })
})
