/** What an instrument leaves known of states and charges, worked out by hand from a recording without noise. */
import { describe, expect, it } from 'vitest'
import type { Instrument, InstrumentRange } from '../recording/instrument.ts'
import type { SpanStatistics } from '../recording/span.ts'
import { analyse } from '../recording/states.ts'
import { samplesOf } from '../recording/states-samples.ts'
import { beyondInWords } from '../report/recording-words.ts'
import { measuredStates } from './measured-states.ts'

const INTERVAL_s = 1e-3
/** Twelve cycles of 20 mA for 0.2 s and next to nothing for 1.8 s. */
const current_A = Float32Array.from({ length: 24_000 }, (_, k) =>
  k % 2000 >= 900 && k % 2000 < 1100 ? 0.02 : 0,
)
const SENT_C = 0.02 * 0.2
const statistics = { charge_C: 12 * SENT_C } as SpanStatistics

const range = (name: string, fullScale_A: number, digit_A: number): InstrumentRange => ({
  name,
  fullScale_A,
  digit_A,
  accuracyOfReading: 0.01,
  accuracyDigits: 0,
  accuracyOffset_A: 0,
  burden_Ohm: 0,
  bandwidth_Hz: null,
})

function read(...ranges: InstrumentRange[]) {
  const instrument: Instrument = { name: 'meter', ranges, sample: 'mean' }
  const analysis = analyse(samplesOf(current_A, INTERVAL_s))
  return {
    instrument: instrument.name,
    ...measuredStates(analysis, { instrument, marks: [], supply_V: null }, statistics),
  }
}

describe('a state beyond every range', () => {
  it('leaves no charge with an uncertainty, and is named', () => {
    const told = read(range('small', 1e-3, 1e-6))
    expect(told.states.map((state) => state.range)).toEqual(['small', null])
    expect(told.charge).toEqual({ charge_C: 12 * SENT_C, u_C: null })
    expect(told.cycleCharge).toMatchObject({
      // At rest it read zero, too: a quarter of 1 µA.
      charge_C: expect.closeTo(SENT_C + 0.25e-6 * 1.8, 9),
      u_C: null,
    })
    expect(beyondInWords(told)[0]).toMatch(/^B: beyond every range/)
  })

  it('is not one where the range reaches', () => {
    const told = read(range('large', 1, 1e-6))
    expect(beyondInWords(told)).toEqual([])
    // ± 1 % of the reading, rectangular (JCGM 100, 4.3.7); the rest reads less than half a digit and adds next to nothing.
    expect(told.cycleCharge?.u_C).toBeCloseTo((0.01 * SENT_C) / Math.sqrt(3), 6)
  })
})

it('a cycle counts what read zero with a quarter of a digit, as the whole does', () => {
  const { charge, cycleCharge, states } = read(range('coarse', 1, 1e-3))
  expect(states[0].current).toEqual({ kind: 'below', limit: 0.5e-3 })
  expect(cycleCharge?.charge_C).toBeCloseTo(SENT_C + 0.25e-3 * 1.8, 6)
  expect(charge.charge_C).toBeCloseTo(12 * (SENT_C + 0.25e-3 * 1.8), 5)
})
