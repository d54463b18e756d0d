import { describe, expect, it } from 'vitest'
import { formatUncertain } from '../quantity/format-uncertain.ts'
import { parseUncertain } from '../quantity/parse-uncertain.ts'
import { asWritten, currentText, without } from './adopt-numbers.ts'

describe('asWritten', () => {
  // JCGM 100, table G.2: t for 95.45 % is 13.97 at 1 degree of freedom, 4.53 at 2, 2.28 at 10, 2.00 without end.
  it.each([
    [1, 13.97],
    [2, 4.53],
    [10, 2.28],
    [Infinity, 2],
  ])('widens by the factor for %d degrees of freedom', (dof, factor) => {
    const written = asWritten({ value: 1000, u: 1, dof })
    expect(written.kind).toBe('normal')
    if (written.kind === 'normal')
      expect(Math.abs(2 * written.u - factor)).toBeLessThanOrEqual(0.11 * Math.max(1, factor / 10))
  })

  it('keeps two digits of U, rounds it up and ends the value where it ends', () => {
    const written = asWritten({ value: 0.0819437, u: 0.000_303, dof: Infinity })
    expect(formatUncertain(written, 'current')).toBe('81.94 mA ± 0.61 mA')
    expect(parseUncertain('81.94 mA ± 0.61 mA', 'current')).toEqual({ ok: true, value: written })
  })

  it('takes what summing leaves behind for no uncertainty', () => {
    expect(asWritten({ value: 5e-3, u: 1e-18, dof: 3 })).toEqual({ kind: 'exact', value: 5e-3 })
  })

  it('makes a limit of what is not above zero', () => {
    expect(asWritten({ value: -1e-6, u: 2e-6, dof: Infinity })).toEqual({ kind: 'below', limit: 4e-6 })
  })
})

const drain = { kind: 'normal', value: 2e-6, u: 3e-7 } as const

it('takes the standing drains off a current, and off a limit', () => {
  const rest = without({ kind: 'normal', value: 12e-6, u: 4e-7 }, [drain])
  expect(rest).toMatchObject({ value: expect.closeTo(10e-6, 12), u: expect.closeTo(5e-7, 12) })
  expect(currentText(without({ kind: 'below', limit: 5e-3 }, [drain]))).toBe('< 4.998 mA')
})

it('writes what read zero in part as a range, to its wide side', () => {
  const current = { kind: 'uniform', low: 13.2001e-3, high: 13.6334e-3 } as const
  expect(currentText(current)).toBe('13.2 mA..13.7 mA')
  expect(currentText(without({ kind: 'uniform', low: 1e-6, high: 502e-6 }, [drain]))).toBe('0 µA..500 µA')
})
