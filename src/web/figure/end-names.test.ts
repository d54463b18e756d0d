import { describe, expect, it } from 'vitest'
import { namesAtEnds } from './end-names.ts'

const end = (y: number, lines = 1) => ({ name: Array.from({ length: lines }, (_, i) => `${i}`), y })

describe('namesAtEnds', () => {
  it('leaves names that have room beside their curve', () => {
    const [a, b] = namesAtEnds([end(50), end(150)], 0, 200)
    expect(Math.abs(a.at_px - 50)).toBeLessThan(6)
    expect(Math.abs(b.at_px - 150)).toBeLessThan(6)
  })

  it('moves those apart that would meet, keeping their order, and none out of the drawing', () => {
    const names = namesAtEnds([end(199, 2), end(198, 2), end(60)], 0, 200)
    expect(names[0].at_px - names[1].at_px).toBeGreaterThanOrEqual(28)
    expect(names[0].at_px).toBeLessThan(200)
  })
})
