import { expect, test } from 'vitest'
import { cyclesDensity } from './cycles-density.ts'
import { analyse } from './states.ts'
import { type Samples, samplesOf } from './states-samples.ts'

const INTERVAL_s = 1e-3
const PERIOD = 2000
const WORK = 300
const WAKES = 40

/** 20 µA at rest, 30 mA for 0.3 s; in wake 7 it goes on for 0.1 s more. */
const current_A = Float32Array.from({ length: WAKES * PERIOD + 500 }, (_, i) => {
  const into = (i - 500) % PERIOD
  const works = i >= 500 && into < WORK + (Math.floor((i - 500) / PERIOD) === 7 ? 100 : 0)
  return (works ? 30e-3 : 20e-6) * (1 + 0.01 * Math.sin(1.7 * i))
})

function densityOf(samples: Samples, options = {}) {
  const { segments, cycles } = analyse(samples)
  return cyclesDensity(samples, segments, cycles, options)
}

test('every sample of every wake is counted where it lies', () => {
  const density = densityOf(samplesOf(current_A, INTERVAL_s), { columns: 25, rows: 10 })!
  const { counts, columns, rows, wakes, duration_s, lowest_A, highest_A } = density
  expect(wakes).toBe(WAKES)
  const length = Math.round(duration_s / INTERVAL_s)
  expect(length).toBeGreaterThanOrEqual(WORK)
  expect(counts.reduce((a, b) => a + b, 0)).toBe(WAKES * length)
  const rowOf = (x: number) => Math.floor((Math.log(x / lowest_A) / Math.log(highest_A / lowest_A)) * rows)
  const at = (row: number, column: number) => counts[row * columns + column]
  const perColumn = length / columns
  // In the first column all wakes work; in the last all rest, but for the one that went on.
  expect(at(rowOf(30e-3), 0)).toBe(Math.round(WAKES * perColumn))
  expect(at(rowOf(20e-6), columns - 1)).toBe(Math.round((WAKES - 1) * perColumn))
  expect(at(rowOf(30e-3), columns - 1)).toBe(Math.round(perColumn))
})

test('of many wakes, as many are taken as the samples allow', () => {
  expect(densityOf(samplesOf(current_A, INTERVAL_s), { mostSamples: 4000 })!.wakes).toBe(10)
  expect(densityOf(samplesOf(current_A, INTERVAL_s), { mostSamples: 1 })!.wakes).toBe(1)
})

test('there is none without wakes', () => {
  expect(densityOf(samplesOf(new Float32Array(5000).fill(1e-3), INTERVAL_s))).toBeNull()
})
