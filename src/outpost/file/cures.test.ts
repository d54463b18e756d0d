/** What readers are told to do: cures that a check of codes alone would let go wrong. */
import { describe, expect, test } from 'vitest'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'

/** Message, cure and offending text of the first diagnostic after `from` has become `to`. */
function told(from: string, to: string) {
  expect(SOLAR).toContain(from)
  const result = readOutpost(SOLAR.replace(from, to))
  const [first] = result.ok ? result.warnings : result.diagnostics
  return { message: first.message, cure: first.cure, text: first.text }
}

describe('a kind that is not known', () => {
  test.each([
    ['kind: linear, output', 'kind: LDO, output', 'did you mean "linear"?'],
    ['kind: linear, output', 'kind: step-down, output', 'did you mean "buck"?'],
    ['kind: linear, output', 'kind: constructor, output', 'choose one of those'],
    [
      'kind: linear, drop-out: 150 mV, limit',
      'kind: MPPT, drop-out: 150 mV, limit',
      'did you mean "maximum-power"?',
    ],
    ['kind: linear, drop-out: 150 mV, limit', 'kind: pwm, drop-out: 150 mV, limit', 'choose one of those'],
    ['memory: flash', 'memory: flahs', 'did you mean "flash"?'],
    ['memory: flash', 'memory: tape', 'choose one of those'],
    ['overwinter: 1', 'overwinter: "1"', 'write 1 without quotes'],
  ])('%s as %s: %s', (from, to, cure) => {
    expect(told(from, to).cure).toBe(cure)
  })
})

describe('one slip in a curve of efficiency is told where it is', () => {
  test.each([
    ['{ 10 µA: 50 %, 10 mA: 90 }', '90', 'write "90 %"'],
    ['{ 10 µA: 150 %, 10 mA: 90 % }', '150 %', 'check the number'],
    ['{ 10 µA: 50 %, 10 mA:90 % }', '10 mA:90 %', 'put a space after the colon'],
    ['{ is: 85 %, sorce: bench }', 'sorce', 'remove "sorce"'],
    ['85', '85', 'write "85 %"'],
  ])('%s: at %s', (curve, text, cure) => {
    const found = told('{ kind: linear, output', `{ kind: buck, efficiency: ${curve}, output`)
    expect(found.text).toBe(text)
    expect(found.cure).toContain(cure)
  })
})

describe('a share without its sign', () => {
  test.each([
    ['winters: 95 %', 'winters: 95', 'write "95 %"'],
    ['probability: 5 %', 'probability: 50', 'write "50 %"'],
    ['soiling: 3 %', 'soiling: 2..8', 'write "2..8 %"'],
    ['winters: 95 %', 'winters: 195', 'check the number'],
    ['winters: 95 %', 'winters: 120 %', 'check the number'],
  ])('%s as %s: %s', (from, to, cure) => {
    expect(told(from, to).cure).toContain(cure)
  })
})

describe('a variant of another cadence', () => {
  const variant = (cadence: string) => `variants: { slow: { cadence: ${cadence} } }\naims:`

  test('is told to take away that of the file', () => {
    expect(told('aims:', variant('{ rest: 1 h }')).cure).toBe('write "rate: null" beside "rest"')
    expect(told('aims:', variant('{ clock minutes: 5 }')).cure).toBe(
      'write "rate: null" beside "clock minutes"',
    )
  })

  test('reads when it does', () => {
    const text = SOLAR.replace('aims:', variant('{ rest: 9 min, rate: null }'))
    expect(readOutpost(text).ok).toBe(true)
  })

  test('that names two itself is told to keep one', () => {
    expect(told('aims:', variant('{ rest: 1 h, clock minutes: 5, rate: null }')).cure).toMatch(/^keep one/)
  })
})
