/** The daily laws against tables computed independently from the published formulas; see truth/clearness/README.md. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { bendtExponent, bendtLawOf, bendtUpperBound, herzogExponent } from '../../src/sky/clearness-bendt.ts'
import {
  hollandsHugetLaw,
  hollandsHugetLawOf,
  publishedLambda,
  solvedLambda,
} from '../../src/sky/clearness-hollands-huget.ts'
import { lagOneOfClearness, scoreTable } from '../../src/sky/clearness-score.ts'
import type { ClearnessLaw } from '../../src/sky/daily-law.ts'

interface Item {
  readonly id: string
  readonly inputs: { readonly KT: number; readonly kmin?: number; readonly phi?: number }
  // biome-ignore lint/suspicious/noExplicitAny: three kinds of item, told apart by their id
  readonly expected: any
}
const { items }: { items: readonly Item[] } = JSON.parse(
  readFileSync(new URL('../../truth/clearness/daily-clearness.json', import.meta.url), 'utf8'),
)
const of = (prefix: RegExp): [string, Item][] => items.filter((i) => prefix.test(i.id)).map((i) => [i.id, i])

/** Absolute; the tables are printed to six digits, so half a unit of the sixth is the residual. */
const TOLERANCE = {
  lambda: 1e-5, // fit, printed digits
  lambda_exact: 1e-4, // printed digits and the table's own root finding
  C: 1e-5,
  integral: 1e-9,
  mean: 1e-5,
  sd: 1e-5,
  cdf: 1e-5,
  quantile: 1e-5,
  kmax: 1e-5,
  gamma: 1e-4, // printed digits
  lagOne: 1e-3, // quadrature of the table and a grid of 401 nodes here
} as const

/** Moments by Simpson's rule with 2000 intervals, so that the law's own mean is not asked about itself. */
function moments(law: ClearnessLaw): { integral: number; mean: number; sd: number } {
  const n = 2000
  const h = (law.high - law.low) / n
  const sums = [0, 0, 0]
  for (let i = 0; i <= n; i++) {
    const k = Math.min(law.low + i * h, law.high)
    const weight = ((i === 0 || i === n ? 1 : i % 2 ? 4 : 2) * h) / 3
    for (let power = 0; power < 3; power++) sums[power] += weight * law.density(k) * k ** power
  }
  return { integral: sums[0], mean: sums[1], sd: Math.sqrt(sums[2] - sums[1] ** 2) }
}

const near = (actual: number, expected: number, tolerance: number): void =>
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance)

function expectCdf(law: ClearnessLaw, table: Record<string, number>): void {
  for (const [k, p] of Object.entries(table)) near(law.cdf(Number(k)), p, TOLERANCE.cdf)
}

it('uses every item of the table', () => {
  expect(of(/^hh-0/).length + of(/^hh-r1/).length + of(/^bendt/).length).toBe(items.length)
  expect(items.length).toBe(28)
})

describe('Hollands & Huget (1983)', () => {
  it.each(of(/^hh-0/))('%s', (_, { inputs, expected }) => {
    const lambda = publishedLambda(inputs.KT)
    near(lambda, expected.lambda, TOLERANCE.lambda)
    near(solvedLambda(inputs.KT), expected.lambda_exact, TOLERANCE.lambda_exact)
    const law = hollandsHugetLawOf(lambda)
    near(law.density(0), expected.C, TOLERANCE.C)
    const m = moments(law)
    near(m.integral, expected.integral, TOLERANCE.integral)
    near(m.mean, expected.mean, TOLERANCE.mean)
    near(law.mean, expected.mean, TOLERANCE.mean)
    near(m.sd, expected.sd, TOLERANCE.sd)
    expectCdf(law, expected.cdf)
    for (const [p, k] of Object.entries(expected.quantiles as Record<string, number>))
      near(law.quantile(Number(p)), k, TOLERANCE.quantile)
  })
})

describe('Bendt, Collares-Pereira & Rabl (1981)', () => {
  it.each(of(/^bendt/))('%s', (_, { inputs, expected }) => {
    const low = inputs.kmin as number
    const high = bendtUpperBound(inputs.KT)
    near(high, expected.kmax, TOLERANCE.kmax)
    const fitted = herzogExponent(inputs.KT, low, high)
    near(fitted, expected.gamma, TOLERANCE.gamma)
    const asFitted = bendtLawOf(fitted, low, high)
    near(moments(asFitted).mean, expected.mean, TOLERANCE.mean)
    near(asFitted.mean, expected.mean, TOLERANCE.mean)
    expectCdf(asFitted, expected.cdf_fit)
    const solved = bendtExponent(inputs.KT, low, high)
    near(solved, expected.gamma_exact, TOLERANCE.gamma)
    const exact = bendtLawOf(solved, low, high)
    near(exact.mean, inputs.KT, 1e-12)
    near(moments(exact).sd, expected.sd_exact, TOLERANCE.sd)
    expectCdf(exact, expected.cdf_exact)
  })
})

describe('lag-one autocorrelation of clearness under a Gaussian score (Graham, Hollands & Brunger 1988)', () => {
  it.each(of(/^hh-r1/))('%s', (_, { inputs, expected }) => {
    const table = scoreTable(hollandsHugetLaw(inputs.KT))
    near(lagOneOfClearness(table, inputs.phi as number), expected, TOLERANCE.lagOne)
  })
})
