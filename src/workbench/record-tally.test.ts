import { describe, expect, it } from 'vitest'
import { LiveReader } from './record-reader.ts'

const STEP_s = 0.01
const COUNT = 500

/** Samples of 2 mA every 10 ms, the stamp of one of them replaced. */
function readAlong(stampOf: (sample: number) => number) {
  const reader = new LiveReader({})
  const lines = Array.from({ length: COUNT }, (_, k) => `${stampOf(k)},2\n`).join('')
  const bytes = Buffer.from(`time (s),current (mA)\n${lines}`)
  for (let at = 0; at < bytes.length; at += 100) reader.push(wholeLines(bytes, at, at + 100))
  reader.end()
  return { picture: reader.tally.picture(), problem: reader.problem }
}

/** The lines that end between two places. */
const wholeLines = (bytes: Buffer, from: number, to: number) =>
  bytes.subarray(
    from === 0 ? 0 : bytes.lastIndexOf(10, from - 1) + 1,
    bytes.lastIndexOf(10, Math.min(to, bytes.length) - 1) + 1,
  )

describe('a picture of a recording under way', () => {
  // By hand: 2 mA through 499 steps of 10 ms; the last sample has no step yet.
  const charge_C = 2e-3 * STEP_s * (COUNT - 1)

  it.each([
    ['even times', (k: number) => k * STEP_s],
    ['one stamp a year ahead', (k: number) => (k === 300 ? 3e7 : k * STEP_s)],
    ['one stamp beyond all bounds', (k: number) => (k === 300 ? 1e18 : k * STEP_s)],
    ['a clock that is set to the year', (k: number) => (k < 300 ? 0 : 1.77e9) + k * STEP_s],
    ['a clock that is set back', (k: number) => (k < 300 ? 1.77e9 : 0) + k * STEP_s],
  ])('goes on through %s', (_, stampOf) => {
    const { picture, problem } = readAlong(stampOf)
    expect(problem).toBeNull()
    expect(picture.samples).toBe(COUNT)
    expect(picture.lostSamples).toBe(0)
    expect(picture.charge_C).toBeCloseTo(charge_C, 7)
    expect(picture.duration_s).toBeCloseTo(STEP_s * (COUNT - 1), 3)
    expect(picture.highest_A.length).toBeLessThanOrEqual(60)
    for (const highest of picture.highest_A) expect(highest).toBeCloseTo(2e-3, 8)
  })

  it('counts what is missing from a pause of seconds', () => {
    const { picture } = readAlong((k) => k * STEP_s + (k < 300 ? 0 : 12))
    expect(picture.lostSamples).toBe(1200)
    expect(picture.charge_C).toBeCloseTo(charge_C, 7)
    expect(picture.duration_s).toBeCloseTo(STEP_s * (COUNT - 1) + 12, 3)
  })
})
