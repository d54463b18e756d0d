/**
 * Mean and spread of a charge and a duration together. Second moments are kept about the mean, so that what is certain
 * has a variance of exactly 0.
 */

export interface Spread {
  readonly charge_C: number
  readonly duration_s: number
  readonly chargeVariance_C2: number
  readonly durationVariance_s2: number
  readonly covariance_C_s: number
}

export interface Part {
  readonly share: number
  readonly spread: Spread
}

/** A charge and a duration that are certain. */
export function certain(charge_C: number, duration_s: number): Spread {
  return { charge_C, duration_s, chargeVariance_C2: 0, durationVariance_s2: 0, covariance_C_s: 0 }
}

export const NOTHING: Spread = certain(0, 0)

/** One after the other, independent: means and variances add. */
export function plus(a: Spread, b: Spread): Spread {
  return {
    charge_C: a.charge_C + b.charge_C,
    duration_s: a.duration_s + b.duration_s,
    chargeVariance_C2: a.chargeVariance_C2 + b.chargeVariance_C2,
    durationVariance_s2: a.durationVariance_s2 + b.durationVariance_s2,
    covariance_C_s: a.covariance_C_s + b.covariance_C_s,
  }
}

/** What is inside the parts on average: the mean, and the mean of the parts' variances. Shares add up to 1. */
export function average(parts: readonly Part[]): Spread {
  const of = (pick: (spread: Spread) => number) =>
    parts.reduce((sum, { share, spread }) => sum + share * pick(spread), 0)
  return {
    charge_C: of((s) => s.charge_C),
    duration_s: of((s) => s.duration_s),
    chargeVariance_C2: of((s) => s.chargeVariance_C2),
    durationVariance_s2: of((s) => s.durationVariance_s2),
    covariance_C_s: of((s) => s.covariance_C_s),
  }
}

/** One of the parts, by chance: the law of total variance, within the parts plus between their means. */
export function mixture(parts: readonly Part[]): Spread {
  const within = average(parts)
  let chargeVariance_C2 = within.chargeVariance_C2
  let durationVariance_s2 = within.durationVariance_s2
  let covariance_C_s = within.covariance_C_s
  for (const { share, spread } of parts) {
    const charge = spread.charge_C - within.charge_C
    const duration = spread.duration_s - within.duration_s
    chargeVariance_C2 += share * charge ** 2
    durationVariance_s2 += share * duration ** 2
    covariance_C_s += share * charge * duration
  }
  return { ...within, chargeVariance_C2, durationVariance_s2, covariance_C_s }
}
