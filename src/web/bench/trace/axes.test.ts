/** Ticks of both axes, and the way from current to height. */
import fc from 'fast-check'
import { beforeAll, describe, expect, it, vi } from 'vitest'
import type * as Current from './current-scale.ts'
import type * as Time from './time-ticks.ts'

let current: typeof Current
let time: typeof Time
beforeAll(async () => {
  vi.stubGlobal('navigator', { language: 'en' })
  current = await import('./current-scale.ts')
  time = await import('./time-ticks.ts')
})

describe('the time axis', () => {
  const labels = (from_s: number, to_s: number, most = 8) => {
    const { ticks, name } = time.timeAxis({ from_s, to_s }, most)
    return [name, ...ticks.map(({ label }) => label)]
  }

  it.each([
    [
      [0, 10],
      ['time from the start', '0 s', '2 s', '4 s', '6 s', '8 s', '10 s'],
    ],
    [
      [0, 0.01],
      ['time from the start', '0.000 s', '0.002 s', '0.004 s', '0.006 s', '0.008 s', '0.010 s'],
    ],
    [
      [0, 200],
      ['time from the start', '0:00', '0:30', '1:00', '1:30', '2:00', '2:30', '3:00'],
    ],
    [
      [3500, 10_000],
      [
        'time from the start',
        '1:00:00',
        '1:15:00',
        '1:30:00',
        '1:45:00',
        '2:00:00',
        '2:15:00',
        '2:30:00',
        '2:45:00',
      ],
    ],
    [
      [3661.2, 3661.3],
      ['time after 1 h 1 min 1 s', '+200 ms', '+220 ms', '+240 ms', '+260 ms', '+280 ms', '+300 ms'],
    ],
  ] as const)('from %j is told in round times', ([from_s, to_s], wanted) => {
    expect(labels(from_s, to_s)).toEqual(wanted)
  })

  it('has few ticks, inside the window, and no two with one label', () => {
    const windows = fc
      .tuple(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.double({ min: -5, max: 6, noNaN: true }))
      .map(([from_s, power]) => ({ from_s, to_s: from_s + 10 ** power }))
    fc.assert(
      fc.property(windows, fc.integer({ min: 2, max: 20 }), (window, most) => {
        const { ticks } = time.timeAxis(window, most)
        const room = 1e-6 * (window.to_s - window.from_s) + 1e-9
        expect(ticks.length).toBeLessThanOrEqual(most + 1)
        for (const { value } of ticks) {
          expect(value).toBeGreaterThanOrEqual(window.from_s - room)
          expect(value).toBeLessThanOrEqual(window.to_s + room)
        }
        expect(new Set(ticks.map(({ label }) => label)).size).toBe(ticks.length)
      }),
    )
  })
})

describe('the current axis', () => {
  const extent = fc
    .tuple(fc.double({ min: -9, max: 0, noNaN: true }), fc.double({ min: 0.1, max: 7, noNaN: true }))
    .map(([low, decades]) => ({
      min_A: 10 ** low,
      usual_A: 10 ** low,
      max_A: 10 ** Math.min(low + decades, 2),
    }))

  it('rises with the current from foot to head, and what is beyond lies on its end', () => {
    fc.assert(
      fc.property(extent, fc.constantFrom('log', 'linear'), (each, kind) => {
        const scale = current.currentScale(kind, each)
        const { low_A, high_A } = scale
        const steps = Array.from({ length: 50 }, (_, k) =>
          current.heightOf(scale, low_A + ((high_A - low_A) * k) / 49),
        )
        expect(steps).toEqual(steps.toSorted((a, b) => a - b))
        expect(current.heightOf(scale, high_A * 10)).toBe(1)
        expect(current.heightOf(scale, -1)).toBe(0)
        expect(current.heightOf(scale, each.max_A)).toBeLessThan(1)
      }),
    )
  })

  it('has ticks between two and a dozen, each with a name of its own', () => {
    fc.assert(
      fc.property(extent, fc.constantFrom('log', 'linear'), (each, kind) => {
        const scale = current.currentScale(kind, each)
        const ticks = current.currentTicks(scale)
        expect(ticks.length).toBeGreaterThanOrEqual(2)
        expect(ticks.length).toBeLessThanOrEqual(12)
        for (const { value } of ticks) expect(value).toBeGreaterThanOrEqual(scale.low_A)
        expect(new Set(ticks.map(({ label }) => label)).size).toBe(ticks.length)
      }),
    )
  })

  it('for what is in sight moves in steps, and holds it', () => {
    expect(current.extentInSteps({ min_A: 3.1e-6, usual_A: 3.1e-6, max_A: 44e-3 })).toEqual({
      min_A: 2e-6,
      usual_A: 2e-6,
      max_A: 0.05,
    })
    expect(current.extentInSteps({ min_A: -0.3, usual_A: 0, max_A: 0 })).toEqual({
      min_A: -0.5,
      usual_A: 0,
      max_A: 0,
    })
  })

  it('of a recording of nothing, or of what only flows back, is there all the same', () => {
    for (const each of [
      { min_A: 0, usual_A: 0, max_A: 0 },
      { min_A: -1, usual_A: -1, max_A: -0.5 },
    ])
      for (const kind of ['log', 'linear'] as const)
        expect(current.heightOf(current.currentScale(kind, each), each.max_A)).toBeGreaterThanOrEqual(0)
  })
})
