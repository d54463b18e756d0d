/** The first sentences of a reading say no more than the recording shows. The truth is what is made up here. */
import { describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import { recordingOf } from '../recording/memory.ts'
import { readRecording } from './read-recording.ts'

function verdictOf(currents_A: readonly number[], interval_s: number): string {
  const current_A = Float32Array.from(currents_A)
  const recording = recordingOf(
    { count: current_A.length, time_s: null, current_A, voltage_V: null },
    { interval_s },
  )
  const all = { span: { from_s: null, to_s: null }, voltage_V: null, instrument: null, marks: [] }
  return readRecording(recording, all).reading.verdict
}

const draws = stream(4, 0, 0)
const noisy = (level_A: number, share: number) => level_A * (1 + share * draws.normal())
const many = (count: number, level: (i: number) => number) =>
  Array.from({ length: count }, (_, i) => level(i))

describe('a recording of one level', () => {
  it('is steady where it is, noise or not', () => {
    expect(
      verdictOf(
        many(3000, () => 1e-3),
        0.01,
      ),
    ).toContain('A steady 1 mA')
    expect(
      verdictOf(
        many(3000, () => noisy(1e-3, 0.02)),
        0.01,
      ),
    ).toContain('A steady')
    expect(
      verdictOf(
        many(3000, () => noisy(1e-3, 0.4)),
        0.01,
      ),
    ).toContain('A steady')
    // Nothing is connected: noise about zero.
    expect(
      verdictOf(
        many(3000, () => 1e-6 * draws.normal()),
        0.01,
      ),
    ).toContain('A steady')
  })

  // What a hand meter of ten samples a second makes of wakes that last a tenth or a fifth of a second.
  it.each([
    ['one', 1],
    ['two', 2],
  ])('is not steady where wakes of %s samples are in it', (_, length) => {
    const verdict = verdictOf(
      many(3000, (i) => noisy(i % 50 < length ? 20e-3 : 10e-6, 0.01)),
      0.1,
    )
    expect(verdict).toMatch(/keeps to no level.*half of the time below 10 µA.*sample faster/)
    expect(verdict).not.toContain('no wakes')
  })

  it('is not steady where a capacitor charges again and again', () => {
    const sawtooth = many(3000, (i) => noisy(10e-6 + 20e-3 * Math.exp(-(i % 300) / 40), 0.01))
    expect(verdictOf(sawtooth, 0.01)).toContain('keeps to no level')
  })
})

describe('a recording of few wakes', () => {
  const wakes = (starts: readonly number[]) =>
    many(3000, (i) => noisy(starts.some((start) => i >= start && i < start + 100) ? 20e-3 : 10e-6, 0.01))

  it.each([
    [[], 'A steady'],
    [[1000], 'One wake in 30 s; at rest'],
    [[1000, 2400], '2 wakes in 30 s; the one whole cycle lasts 14 s and takes 20.'],
    [[200, 1200, 2200], 'It wakes every 10 s and a cycle takes'],
  ])('with wakes at %j says so', (starts, words) => {
    expect(verdictOf(wakes(starts), 0.01)).toContain(words)
  })

  it('says that no cycle was measured whole, where each lost time', () => {
    const lost = wakes([200, 1200, 2200]).map((x, i) => (i % 500 < 20 ? Number.NaN : x))
    expect(verdictOf(lost, 0.01)).toContain('3 wakes in 30 s, and no cycle without lost time; at rest')
  })
})
