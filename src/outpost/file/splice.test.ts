import fc from 'fast-check'
import { expect, it } from 'vitest'
import { spliceBetween, spliced } from './splice.ts'

const texts = fc.string({ unit: fc.constantFrom('a', 'b', '\n', '😀', '😁'), maxLength: 12 })

it('spliceBetween makes the one text into the other, cutting no character in two', () =>
  fc.assert(
    fc.property(texts, texts, (before, after) => {
      const splice = spliceBetween(before, after)
      expect(splice === null).toBe(before === after)
      if (splice === null) return
      expect(spliced(before, [splice])).toBe(after)
      for (const part of [before.slice(0, splice.start), before.slice(splice.end), splice.text])
        expect(part).not.toMatch(/\p{Cs}/u)
    }),
    { seed: 50 },
  ))

it.each([
  ['abc', 'abXc', { start: 2, end: 2, text: 'X' }],
  ['abc', 'ac', { start: 1, end: 2, text: '' }],
  ['aaa', 'aa', { start: 2, end: 3, text: '' }],
  ['', 'x', { start: 0, end: 0, text: 'x' }],
  ['a😀b', 'a😁b', { start: 1, end: 3, text: '😁' }],
])('spliceBetween(%j, %j) is as short as can be', (before, after, splice) => {
  expect(spliceBetween(before, after)).toEqual(splice)
})
