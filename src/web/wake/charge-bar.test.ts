import { describe, expect, it } from 'vitest'
import { laidOut, lanesOf } from './charge-bar.ts'

const part = (name: string, charge_C: number, u_C = 0) => ({ name, kind: 'step' as const, charge_C, u_C })

describe('laidOut', () => {
  it('lays the parts end to end, largest first, with what coverage factor 2 makes of their uncertainty', () => {
    const parts = laidOut([part('rest', 2, 0.1), part('none', 0), part('send', 6, 1)])
    expect(
      parts.map(({ name, from_C, to_C, share, expanded_C }) => [name, from_C, to_C, share, expanded_C]),
    ).toEqual([
      ['send', 0, 6, 0.75, 2],
      ['rest', 6, 8, 0.25, 0.2],
    ])
  })
})

describe('lanesOf', () => {
  it('opens a lane only where whiskers would meet', () => {
    const spans = [
      { from: 0, to: 10 },
      { from: 5, to: 7 },
      { from: 8, to: 20 },
      { from: 12, to: 14 },
    ]
    expect(lanesOf(spans)).toEqual([0, 1, 1, 0])
  })
})
