import fc from 'fast-check'
import { expect, it } from 'vitest'
import { comment, prefixProblem } from './c-text.ts'

it('lets no words out of a comment', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom('*', '/', '?', '\\', '\n', 'a', ' ', '\u202e') }),
      (words) => {
        const inside = comment(words).slice(2, -2)
        expect(inside).not.toMatch(/\*\/|\/\*|\?\?|\\|\u202e/)
      },
    ),
  )
})

it.each(['1st', '', 'a-b', 'a__b', 'tide_', '_tide', 'é', 'a'.repeat(32)])(
  'refuses the prefix "%s"',
  (prefix) => {
    expect(prefixProblem(prefix)).not.toBeNull()
  },
)

it.each(['tide', 'Tide2', 'hut_4'])('takes the prefix "%s"', (prefix) => {
  expect(prefixProblem(prefix)).toBeNull()
})
