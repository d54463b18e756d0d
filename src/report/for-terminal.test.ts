import { expect, it } from 'vitest'
import { forTerminal } from './for-terminal.ts'
import { COLOUR } from './terminal.ts'

it('lets no control character of a file through, and no change of direction', () => {
  expect(forTerminal('a \u001b[31mred\u001b[0m title')).toBe('a  [31mred [0m title')
  expect(forTerminal('\u001b]0;owned\u0007 \u009b2J \r back \u202e turned \u2028')).not.toMatch(
    /[\p{Cc}\u202e\u2028]/u,
  )
})

it('leaves lines, letters of any script and the marks of its own ink', () => {
  const text = `${COLOUR.strong('Øy')}\n${COLOUR.faint('小屋')} ${COLOUR.accent('†')} ±µ🦊\n`
  expect(forTerminal(text)).toBe(text)
})
