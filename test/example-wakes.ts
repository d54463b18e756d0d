/** Wakes for tests: plain ones, and one in which everything happens at once. */
import type { Cadence, Schedule, Step, Wake } from '../src/wake/wake.ts'

export function aStep(change: Partial<Step<number>>): Step<number> {
  return {
    name: 'work',
    duration_s: 1,
    current_A: 0.01,
    peak: null,
    chance: 1,
    every: 1,
    retries: null,
    reports: 0,
    rail: null,
    note: null,
    ...change,
  }
}

export function aCadence(
  schedule: Schedule<number> | null,
  change: Partial<Cadence<number>> = {},
): Cadence<number> {
  return { schedule, events: null, thrift: [], ...change }
}

export function aWake(change: Partial<Wake<number>>): Wake<number> {
  return {
    steps: [aStep({})],
    boot: [],
    cadence: aCadence({ kind: 'rest', rest_s: 60 }),
    rest_A: 0,
    standing: [],
    resume: 'continue',
    keeps: [],
    ...change,
  }
}

/** Chances, peaks, retries, a restart, and turns that meet in every sixth wake. */
export const EVERYTHING = aWake({
  resume: 'restart',
  rest_A: 20e-6,
  boot: [aStep({ name: 'boot', duration_s: 0.3, current_A: 0.04 })],
  steps: [
    aStep({ name: 'sense', duration_s: 0.8, current_A: 0.006, reports: 1 }),
    aStep({ name: 'store', duration_s: 0.1, current_A: 0.012, chance: 0.4 }),
    aStep({
      name: 'join',
      duration_s: 2.5,
      current_A: 0.08,
      every: 2,
      peak: { current_A: 0.31, duration_s: 0.008 },
      retries: { probability: 0.2, times: 2, backoff_s: 7, failedDuration_s: 4 },
    }),
    aStep({
      name: 'send',
      duration_s: 0.4,
      current_A: 0.1,
      every: 3,
      chance: 0.9,
      reports: 6,
      retries: { probability: 0.35, times: 1, backoff_s: 1, failedDuration_s: 0.6 },
    }),
    aStep({ name: 'listen', duration_s: 1.2, current_A: 0.05, every: 2 }),
  ],
})
