/**
 * Certified means and deviations of the NIST Statistical Reference Datasets through the sums that recordings use;
 * source and provenance are in truth/statistics/README.md.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { SampleSums } from '../../src/recording/sums.ts'

/** Digits that must agree: −log10 of the relative error. */
const DIGITS = {
  mean: 14, // the certified values are printed to 15
  // Of NumAcc4 the data themselves: 10000000.1 as a double is off by 1e-8 of the deviation 0.1.
  deviation: 8,
}

interface Strd {
  readonly id: string
  readonly inputs: {
    readonly n: number
    readonly data?: readonly number[]
    readonly generator?: { readonly first: string; readonly then_repeat_500: readonly string[] }
  }
  readonly mean: string
  readonly deviation: string
}

const { sets } = JSON.parse(
  readFileSync(new URL('../../truth/statistics/strd-univariate.json', import.meta.url), 'utf8'),
) as { sets: Strd[] }

function valuesOf({ inputs: { data, generator } }: Strd): Float64Array {
  if (data) return Float64Array.from(data)
  const [low, high] = generator!.then_repeat_500.map(Number)
  return Float64Array.from({ length: 1001 }, (_, i) =>
    i === 0 ? Number(generator!.first) : i % 2 ? low : high,
  )
}

const digits = (value: number, certified: string) =>
  value === Number(certified) ? 15 : -Math.log10(Math.abs(value / Number(certified) - 1))

describe.each(sets)('$id', (set) => {
  const values = valuesOf(set)
  const sums = new SampleSums()
  // In uneven pieces, as blocks and the ends of spans add them.
  for (let from = 0; from < values.length; from += 97)
    sums.add(values, from, Math.min(from + 97, values.length))

  test('has all its values', () => expect(sums.count).toBe(set.inputs.n))
  test('mean', () => expect(digits(sums.mean()!, set.mean)).toBeGreaterThanOrEqual(DIGITS.mean))
  test('deviation', () =>
    expect(digits(sums.deviation()!, set.deviation)).toBeGreaterThanOrEqual(DIGITS.deviation))
})
