import { describe, expect, it } from 'vitest'
import { checkInstrument, type Instrument, type InstrumentRange, rangeAt, rangeFor } from './instrument.ts'
import { burdenOf, pulseSeen } from './instrument-burden.ts'
import {
  chargeUncertainty,
  edgeUncertainty,
  meanUncertainty,
  readingUncertainty,
  stateCurrent,
} from './instrument-uncertainty.ts'

const range = (fields: Partial<InstrumentRange>): InstrumentRange => ({
  name: 'test',
  fullScale_A: 1,
  digit_A: 0,
  accuracyOfReading: 0,
  accuracyDigits: 0,
  accuracyOffset_A: 0,
  burden_Ohm: 0,
  bandwidth_Hz: null,
  ...fields,
})

/** A hand multimeter as they are: a fine range that a radio overloads, a coarse one on which 1 mA reads zero (common practice). */
const fine = range({
  name: '200 mA',
  fullScale_A: 0.2,
  digit_A: 1e-4,
  accuracyOfReading: 0.012,
  accuracyDigits: 2,
  burden_Ohm: 1,
})
const coarse = range({
  name: '10 A',
  fullScale_A: 10,
  digit_A: 0.01,
  accuracyOfReading: 0.02,
  accuracyDigits: 5,
  burden_Ohm: 0.01,
})
const hand: Instrument = { name: 'hand multimeter', ranges: [fine, coarse], sample: 'mean' }

const sampled = (mean_A: number, fields = {}) => ({
  mean_A,
  u_A: 0,
  deviation_A: 0,
  effectiveSamples: 100,
  min_A: mean_A,
  max_A: mean_A,
  ...fields,
})

describe('an instrument', () => {
  it('shows a current on the smallest range that is not overloaded, or none', () => {
    expect(rangeFor(hand, 0.001)).toBe(fine)
    expect(rangeFor(hand, -0.2)).toBe(fine)
    expect(rangeFor(hand, 0.31)).toBe(coarse)
    expect(rangeFor(hand, 11)).toBeNull()
  })

  it('keeps to marks where ranges were changed by hand', () => {
    const marks = [
      { sample: 100, range: 1 },
      { sample: 200, range: 0 },
    ]
    expect(rangeAt(hand, marks, 99, 0.001)).toBe(fine)
    expect(rangeAt(hand, marks, 100, 0.001)).toBe(coarse)
    expect(rangeAt(hand, marks, 250, 0.001)).toBe(fine)
    expect(rangeAt(hand, marks, 250, 0.31)).toBeNull()
    expect(() => rangeAt(hand, [{ sample: 0, range: 7 }], 1, 0)).toThrow('no range 7')
  })

  it('is refused with place and value', () => {
    expect(checkInstrument(hand)).toBe(hand)
    expect(() => checkInstrument({ ...hand, ranges: [coarse, fine] })).toThrow(
      'range 200 mA: ranges come by rising',
    )
    expect(() => checkInstrument({ ...hand, ranges: [{ ...fine, digit_A: -1 }] })).toThrow(
      'digit_A is zero or more, not -1',
    )
    expect(() => checkInstrument({ ...hand, ranges: [] })).toThrow(RangeError)
    expect(() => checkInstrument({ ...hand, ranges: [{ ...fine, fullScale_A: 0 }] })).toThrow(
      'above zero, not 0 A',
    )
    expect(() => checkInstrument({ ...hand, ranges: [{ ...fine, bandwidth_Hz: 0 }] })).toThrow('bandwidth')
  })
})

describe('uncertainty of a reading', () => {
  // JCGM 100, 4.3.7, example 2 (from memory): 14e-6 of the reading plus 2e-6 of the 1 V range at 0.928571 V, a = 15 µV.
  it('gives 8.7 µV for the voltmeter of the guide', () => {
    const voltmeter = range({ accuracyOfReading: 14e-6, accuracyOffset_A: 2e-6 })
    expect(readingUncertainty(voltmeter, 0.928571).combined_A).toBeCloseTo(8.7e-6, 7)
  })

  // JCGM 100, F.2.2.1 (from memory): u = 0.29 δx for a digital indication.
  it('is 0.29 of a digit for rounding', () => {
    expect(readingUncertainty(range({ digit_A: 1 }), 0.5).resolution_A).toBeCloseTo(0.29, 2)
  })

  it('does not shrink with the number of samples where the maker states limits', () => {
    const few = meanUncertainty(fine, sampled(0.05, { effectiveSamples: 1, u_A: 1e-4, deviation_A: 1e-4 }))
    const many = meanUncertainty(fine, sampled(0.05, { effectiveSamples: 1e6, u_A: 1e-7, deviation_A: 1e-4 }))
    // ± (1.2 % of 50.0 mA + 2 digits of 0.1 mA) = ± 0.8 mA, over √3.
    expect(many.accuracy_A).toBeCloseTo(0.8e-3 / Math.sqrt(3), 12)
    expect(many.accuracy_A).toBe(few.accuracy_A)
    expect(many.combined_A).toBeGreaterThanOrEqual(many.accuracy_A)
    expect(many.resolution_A).toBeCloseTo(few.resolution_A / 1000, 12)
  })

  it('keeps rounding whole where there is too little noise to spread the readings', () => {
    const quiet = meanUncertainty(fine, sampled(0.05, { deviation_A: 0.2e-4 }))
    expect(quiet.resolution_A).toBeCloseTo(1e-4 / Math.sqrt(12), 12)
  })
})

describe('a reading of 0.00', () => {
  it('on a coarse range is below half a digit', () => {
    expect(stateCurrent(coarse, sampled(0))).toEqual({ kind: 'below', limit: 0.005 })
  })

  it('is a value where some readings are not zero', () => {
    const flicker = stateCurrent(
      coarse,
      sampled(0.002, { min_A: 0, max_A: 0.01, u_A: 0.0005, deviation_A: 0.004 }),
    )
    expect(flicker.kind).toBe('normal')
  })

  it('leaves the charge of a rest unknown between nothing and half a digit', () => {
    const hour = chargeUncertainty([{ range: coarse, sampled: sampled(0), time_s: 3600 }])
    expect(hour.charge_C).toBeCloseTo(0.0025 * 3600, 12)
    expect(hour.u_C).toBeCloseTo((0.005 / Math.sqrt(12)) * 3600, 12)
  })
})

describe('uncertainty of charge', () => {
  it('adds linearly on one range and in squares between ranges', () => {
    const part = {
      range: fine,
      sampled: sampled(0.05, { deviation_A: 1, effectiveSamples: 1e12 }),
      time_s: 10,
    }
    const one = chargeUncertainty([part])
    const two = chargeUncertainty([part, part])
    expect(two.accuracy_C).toBeCloseTo(2 * one.accuracy_C, 12)
    const other = chargeUncertainty([part, { ...part, range: { ...fine } }])
    expect(other.accuracy_C).toBeCloseTo(Math.SQRT2 * one.accuracy_C, 12)
  })

  it('knows a change at instants of sampling to an interval over √12', () => {
    expect(edgeUncertainty([0.3], 0.01)).toBeCloseTo((0.3 * 0.01) / Math.sqrt(12), 12)
    expect(edgeUncertainty([0.3, -0.3, 0.3, -0.3], 0.01)).toBeCloseTo((2 * 0.3 * 0.01) / Math.sqrt(12), 12)
  })
})

describe('burden', () => {
  it('lowers the supply by I R: 100 mA through 1 Ω take 100 mV', () => {
    expect(burdenOf(fine, 0.1, 3.3, 'constant-current')).toEqual({
      drop_V: expect.closeTo(0.1, 12),
      shift_A: 0,
    })
  })

  it('makes a resistance draw less and a converter more than without it', () => {
    // A 32 Ω load on 3.3 V behind 1 Ω draws 0.1 A; without the instrument 3.3 V / 32 Ω.
    expect(burdenOf(fine, 0.1, 3.3, 'resistance').shift_A).toBeCloseTo(3.3 / 32 - 0.1, 12)
    // 0.32 W at 3.2 V is 0.1 A; at 3.3 V it is 0.32 / 3.3.
    expect(burdenOf(fine, 0.1, 3.3, 'constant-power').shift_A).toBeCloseTo(0.32 / 3.3 - 0.1, 12)
  })

  it('refuses a current that leaves the device no supply', () => {
    expect(() => burdenOf({ ...fine, burden_Ohm: 40 }, 0.1, 3.3, 'resistance')).toThrow('drop 4 V')
  })

  it('shows a pulse of one time constant to 63 %', () => {
    expect(pulseSeen(range({ bandwidth_Hz: 100 }), 1 / (2 * Math.PI * 100))).toBeCloseTo(0.632, 3)
    expect(pulseSeen(fine, 1)).toBeNull()
  })
})
