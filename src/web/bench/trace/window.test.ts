import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { edgeAfterKey, windowAfterKey } from './keys.ts'
import { around, fitted, panned, zoomed } from './window.ts'

const limits = fc
  .tuple(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), fc.double({ min: 1e-6, max: 1, noNaN: true }))
  .map(([duration_s, share]) => ({ duration_s, shortest_s: duration_s * share }))
const any = fc.tuple(
  fc.double({ min: -2, max: 3, noNaN: true }),
  fc.double({ min: 1e-9, max: 3, noNaN: true }),
)
const setting = fc.tuple(limits, any).map(([limit, [from, width]]) => ({
  limit,
  window: { from_s: from * limit.duration_s, to_s: (from + width) * limit.duration_s },
}))

describe('a window', () => {
  it('never leaves the recording, and is never too short, however it is moved', () => {
    const moves = fc.array(
      fc.oneof(
        fc.double({ min: -5, max: 5, noNaN: true }).map((share) => ({ share })),
        fc
          .tuple(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }))
          .map(([factor, at]) => ({ factor, at })),
      ),
      { maxLength: 12 },
    )
    fc.assert(
      fc.property(setting, moves, ({ limit, window }, all) => {
        let now = fitted(window, limit)
        for (const move of all)
          now = 'share' in move ? panned(now, move.share, limit) : zoomed(now, move.factor, move.at, limit)
        const near = 1e-9 * limit.duration_s
        expect(now.from_s).toBeGreaterThanOrEqual(0)
        expect(now.to_s).toBeLessThanOrEqual(limit.duration_s + near)
        expect(now.to_s - now.from_s).toBeGreaterThanOrEqual(limit.shortest_s - near)
      }),
    )
  })

  it('zoomed keeps what lies under the pointer, unless an end of the recording stops it', () => {
    const inside = { duration_s: 1000, shortest_s: 1e-3 }
    const now = { from_s: 400, to_s: 500 }
    for (const at of [0, 0.3, 1])
      for (const factor of [0.5, 2]) {
        const next = zoomed(now, factor, at, inside)
        expect(next.from_s + at * (next.to_s - next.from_s)).toBeCloseTo(400 + 100 * at, 9)
        expect(next.to_s - next.from_s).toBeCloseTo(100 * factor, 9)
      }
    expect(zoomed(now, 100, 0.5, inside)).toEqual({ from_s: 0, to_s: 1000 })
  })

  it('around a stretch holds it, with room', () => {
    expect(around({ from_s: 10, to_s: 12 }, { duration_s: 100, shortest_s: 0.1 })).toEqual({
      from_s: 9,
      to_s: 13,
    })
  })
})

describe('keys', () => {
  const inside = { duration_s: 1000, shortest_s: 1e-3 }
  const now = { from_s: 400, to_s: 500 }
  it('move, zoom and show the whole', () => {
    const pressed = (key: string, isFine = false) => windowAfterKey(key, isFine, now, inside, 0.001)
    expect(pressed('ArrowRight')).toEqual({ from_s: 410, to_s: 510 })
    expect(pressed('ArrowLeft', true)!.from_s).toBeCloseTo(399.9, 9)
    expect(pressed('PageDown')).toEqual({ from_s: 490, to_s: 590 })
    expect(pressed('+')).toEqual({ from_s: 425, to_s: 475 })
    expect(pressed('-')).toEqual({ from_s: 350, to_s: 550 })
    expect(pressed('Home')).toEqual({ from_s: 0, to_s: 1000 })
    expect(pressed('x')).toBeNull()
  })

  it('move an edge by a pixel, by ten, and to the ends of what is in sight', () => {
    expect(edgeAfterKey('ArrowRight', false, 450, now, 0.001)).toBeCloseTo(450.1, 9)
    expect(edgeAfterKey('ArrowLeft', true, 450, now, 0.001)).toBeCloseTo(449, 9)
    expect(edgeAfterKey('Home', false, 450, now, 0.001)).toBe(400)
    expect(edgeAfterKey('End', false, 450, now, 0.001)).toBe(500)
    expect(edgeAfterKey('Tab', false, 450, now, 0.001)).toBeNull()
  })
})
