import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { editDistance, nearestWord } from './edit-distance.ts'

describe('edit distance', () => {
  // The usual textbook pairs.
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['abc', 'abc', 0],
    ['CR2302', 'CR2032', 1],
    ['ca', 'abc', 3],
  ])('%s to %s is %d', (a, b, expected) => {
    expect(editDistance(a, b)).toBe(expected)
  })

  it('is the same both ways, 0 for equals alone, and at most 1 for one edit', () => {
    const word = fc.string({ maxLength: 8 })
    fc.assert(
      fc.property(word, word, fc.nat(), (a, b, n) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a))
        expect(editDistance(a, b) === 0).toBe(a === b)
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length))
        const at = n % (a.length + 1)
        expect(editDistance(a, `${a.slice(0, at)}x${a.slice(at)}`)).toBe(1)
        expect(editDistance(a, `${a.slice(0, at)}${a.slice(at + 1)}`)).toBe(at < a.length ? 1 : 0)
      }),
    )
  })
})

describe('nearest word', () => {
  it('ignores case and takes the first of equals', () => {
    expect(nearestWord('cr2023', ['LR6', 'CR2032', 'CR2025'])).toBe('CR2032')
    expect(nearestWord('lifepo', ['Li-ion', 'LiFePO4'])).toBe('LiFePO4')
    expect(nearestWord('b', ['a', 'c'])).toBe('a')
  })

  it('needs words', () => {
    expect(() => nearestWord('a', [])).toThrow(RangeError)
  })
})
