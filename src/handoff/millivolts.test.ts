import fc from 'fast-check'
import { expect, it } from 'vitest'
import { atLeast_mV, atMost_mV } from './millivolts.ts'

it('leaves whole millivolts as they are, whatever noise a sum of volts carries', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 60_000 }), fc.integer({ min: 0, max: 5000 }), (mV, more_mV) => {
      expect(atLeast_mV(mV / 1000)).toBe(mV)
      expect(atMost_mV(mV / 1000 + more_mV / 1000)).toBe(mV + more_mV)
    }),
  )
})

it('rounds a threshold between two readings so that neither reading changes sides', () => {
  expect(atLeast_mV(3.6204)).toBe(3621) // 3620 mV lie below it, 3621 mV do not
  expect(atMost_mV(3.6204)).toBe(3620) // 3621 mV lie above it, 3620 mV do not
})
