import { describe, expect, it } from 'vitest'
import { darkestFortnight, yearCut } from './year-cut.ts'

const even = new Array<number>(12).fill(0.5)

describe('the cut of the year', () => {
  it('is 1 July in the north and 1 January in the south', () => {
    expect(yearCut(58, even)).toBe(31 + 28 + 31 + 30 + 31 + 30)
    expect(yearCut(-34, even)).toBe(0)
  })
  it('follows the place near the equator: a dry season from June to August is cut in its middle', () => {
    const dry = even.map((_, month) => (month >= 5 && month <= 7 ? 0.7 : 0.4))
    expect(yearCut(-6, dry)).toBeGreaterThan(182)
    expect(yearCut(-6, dry)).toBeLessThan(225)
  })
})

describe('the darkest fortnight', () => {
  it('is centred on the solstice where clearness is even', () => {
    expect(Math.abs(darkestFortnight(58, even) + 7 - 355)).toBeLessThan(5) // 22 December
    expect(Math.abs(darkestFortnight(-34, even) + 7 - 172)).toBeLessThan(5) // 22 June
  })
  it('moves to the cloudy month near the equator', () => {
    const wet = even.map((k, month) => (month === 3 ? 0.3 : k))
    const start = darkestFortnight(2, wet)
    expect(start).toBeGreaterThanOrEqual(90)
    expect(start + 14).toBeLessThanOrEqual(120)
  })
  it('is the middle of a polar night, also across the new year', () => {
    expect(Math.abs(darkestFortnight(75, even) + 7 - 355)).toBeLessThan(8)
  })
})
