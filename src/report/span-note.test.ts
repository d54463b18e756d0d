/** Notes on stretches of a made-up recording whose states, wakes and charges are known. */
import { describe, expect, test } from 'vitest'
import { recordingOf } from '../recording/memory.ts'
import { spanStatistics } from '../recording/span.ts'
import { readRecording } from '../workbench/read-recording.ts'
import { type ReadAlready, spanNote } from './span-note.ts'

const RATE_Hz = 1000
const INTERVAL_s = 1 / RATE_Hz
/** Of every 5 s: 0.5 s at 10 mA, 1 s at 80 mA, the rest at 10 µA, each give or take 1 %; nothing from 13.5 s to 14 s. */
const currents = Float32Array.from({ length: 30 * RATE_Hz }, (_, i) => {
  const into = (i % 5000) - 2000
  const level = into < 0 || into >= 1500 ? 10e-6 : into < 500 ? 10e-3 : 80e-3
  return i >= 13_500 && i < 14_000 ? Number.NaN : level * (1 + 0.01 * Math.sin(2.3 * i) * Math.cos(0.71 * i))
})
const recording = recordingOf(
  { count: currents.length, time_s: null, current_A: currents, voltage_V: null },
  { interval_s: INTERVAL_s },
)
const read = ((): ReadAlready => {
  const { reading, analysis, span } = readRecording(recording, {
    span: {},
    voltage_V: null,
    instrument: null,
    marks: [],
  })
  const { times_s, states } = analysis.segments
  return { reading, bands: { times_s: [...times_s].map((t) => t + span.from_s), states: [...states] } }
})()

const note = (
  from_s: number,
  to_s: number,
  known: ReadAlready | null = read,
  voltage_V: number | null = null,
) => spanNote(spanStatistics(recording, { from_s, to_s }, voltage_V), known)

describe('the note on a stretch', () => {
  test('of one state names it, with how sure its current is and its share of the wake', () => {
    // 80 mC of 85 mC are 94 %.
    expect(note(7.5, 8.5)).toMatch(
      /^1 s at (80|79\.9\d*|80\.0\d*) ± 0\.\d+ mA \(C\): (80|79\.9\d*|80\.0\d*) ± 0\.\d+ mC, 94 % of this wake\.$/,
    )
  })

  test('of several states gives their mean', () => {
    expect(note(7, 8)).toMatch(
      /^1 s at 45(\.\d+)? ± 0\.\d+ mA on average: 45(\.\d+)? ± 0\.\d+ mC, 53 % of this wake\.$/,
    )
  })

  test('at rest is a share of the cycle, of several wakes their number', () => {
    expect(note(9, 10)).toMatch(
      /^1 s at 10(\.\d+)? ± 0\.\d+ µA \(A\): 10(\.\d+)? ± 0\.\d+ µC, 0\.012 % of this cycle\.$/,
    )
    expect(note(0, 10)).toMatch(/, 2 wakes\.$/)
  })

  test('before states are known, and with a voltage', () => {
    expect(note(7.5, 8.5, null)).toMatch(/^1 s at (80|79\.9|80\.1) mA: (80|79\.9\d*|80\.0\d*) mC\.$/)
    expect(note(7.5, 8.5, null, 3)).toMatch(/mC, 240 mJ\.$/)
  })

  test('that was not measured says so', () => {
    expect(note(13.4, 14.4)).toMatch(/; 500 ms of it are not known\.$/)
    expect(note(13.6, 13.9)).toBe('300 ms in which nothing was measured.')
  })
})

test('how sure a short stretch is follows from how noisy its state is', () => {
  const half = (text: string) => Number(/± ([\d.]+) mA/.exec(text)![1])
  // A hundred times as long, ten times as sure.
  expect(half(note(7.6, 7.61)) / half(note(7.5, 8.5))).toBeGreaterThan(5)
  expect(half(note(7.6, 7.61)) / half(note(7.5, 8.5))).toBeLessThan(20)
})
