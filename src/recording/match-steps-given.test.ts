import { describe, expect, it } from 'vitest'
import { givenRoles } from './match-steps-given.ts'

const names = { states: ['A', 'B', 'C'], steps: ['sense', 'read, twice', 'send'], drains: ['divider'] }
const isStep = (step: number) => ({ kind: 'step', step })

describe('givenRoles', () => {
  it.each([
    ['C = send', 2, [isStep(2)]],
    ['state c=Send', 2, [isStep(2)]],
    ['state 2 = sense, send', 1, [isStep(0), isStep(2)]],
    ['1 = rest', 0, [{ kind: 'rest' }]],
    ['A = divider', 0, [{ kind: 'drain', drain: 0 }]],
    [' B  =  none ', 1, [{ kind: 'none' }]],
  ])('takes %s', (text, state, roles) => {
    expect(givenRoles(text, names)).toEqual({ ok: true, state, roles })
  })

  it.each([
    ['send', 'no state and step'],
    ['D = send', 'it has A, B, C'],
    ['0 = send', 'no state 0'],
    ['4 = send', 'no state 4'],
    ['C = sent', 'no step "sent"; there are sense'],
    ['C = send,', 'no step ""'],
  ])('refuses %s', (text, problem) => {
    const given = givenRoles(text, names)
    expect(given.ok).toBe(false)
    if (!given.ok) expect(given.problem).toContain(problem)
  })
})
