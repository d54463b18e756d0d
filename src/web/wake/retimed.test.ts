import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatUncertain } from '../../quantity/format-uncertain.ts'
import { durationOf_s, handy, inGrains, retimed, toleranceWords, unitOf_s } from './retimed.ts'

describe('retimed', () => {
  it.each([
    ['0.8 s', 0.9, '0.9 s'],
    ['380 ms', 0.42, '420 ms'],
    ['15 min', 960, '16 min'],
    ['0.8 s ± 0.1 s', 0.9, '0.9 s ± 0.1 s'],
    ['25 ms ± 10 %', 0.03, '30 ms ± 10 %'],
    ['1 ± 0.1 s', 2, '2 ± 0.1 s'],
    ['4 s [2 s, 9 s]', 8, '8 s [4 s, 18 s]'],
    ['1.4 s [1 s, 3 s]', 1.5, '1.5 s [1.1 s, 3.2 s]'],
    ['180 ms [120 ms, 0.4 s]', 0.36, '360 ms [240 ms, 0.8 s]'],
    ['20..40 s', 60, '40..80 s'],
    ['< 10 ms', 0.01, '< 20 ms'],
    ['1e3 ms', 2, '2000 ms'],
  ])('writes %s at %f s as %s', (text, next_s, wanted) => {
    expect(retimed(text, next_s)).toBe(wanted)
    expect(durationOf_s(retimed(text, next_s)!)).toBeCloseTo(next_s, 9)
  })

  it('has its best value at what was asked for, however it is written', () => {
    const seconds = fc.double({ min: 1e-3, max: 1e4, noNaN: true }).map((s) => Number(s.toPrecision(3)))
    const uncertain = fc.oneof(
      seconds.map((value) => ({ kind: 'exact' as const, value })),
      seconds.map((value) => ({ kind: 'normal' as const, value, u: value / 20 })),
      seconds.map((typical) => ({ kind: 'skewed' as const, typical, p5: typical / 2, p95: typical * 3 })),
    )
    fc.assert(
      fc.property(uncertain, seconds, (value, next_s) => {
        const text = retimed(formatUncertain(value, 'duration'), next_s)
        expect(durationOf_s(text!)! / next_s).toBeCloseTo(1, 9)
      }),
      { seed: 11, numRuns: 300 },
    )
  })

  it('has nothing to say of what is no duration', () => {
    for (const text of ['', '3 mA', 'soon', '0 s']) {
      expect(retimed(text, 1)).toBeNull()
      expect(unitOf_s(text)).toBeNull()
    }
  })
})

describe('toleranceWords', () => {
  it.each([
    ['1 s', null],
    ['1 s ± 10 %', /share/],
    ['1 s ± 0.1 s', /as long/],
    ['4 s [2 s, 9 s]', /interval move/],
    ['2..4 s', /range move/],
    ['< 3 s', /limit/],
  ])('of %s', (text, words) => {
    if (words === null) expect(toleranceWords(text)).toBeNull()
    else expect(toleranceWords(text)).toMatch(words)
  })
})

describe('handy numbers', () => {
  it.each([
    [0.12, 0.1],
    [0.06, 0.05],
    [19, 10],
    [0.75, 0.5],
    [5, 5],
    [3e-5, 2e-5],
  ])('%f gives %f', (most, wanted) => expect(handy(most)).toBeCloseTo(wanted, 12))

  it('count in grains, at least one', () => {
    expect(inGrains(0.3000001, 0.1)).toBe(0.3)
    expect(inGrains(-4, 0.05)).toBe(0.05)
  })
})
