/**
 * What a device does, from its measured current: noise, states with their levels, segments, cycles. Everything is plain
 * data; current in A, time in s, charge in C. Method and measured errors: docs/models/states.md.
 */
import { type Cycles, cyclesOf } from './cycles.ts'
import type { Segments } from './segments.ts'
import type { NoiseAt } from './stabilise.ts'
import type { Samples } from './states-samples.ts'
import { segment } from './states-segments.ts'
import { measureSegments } from './states-statistics.ts'
import { type State, summariseStates } from './states-summary.ts'

export interface Analysis {
  /** The usual step between samples. */
  readonly interval_s: number
  /** Step of the readings as the samples show it; null where they are as good as continuous. */
  readonly digit_A: number | null
  /** How noisy samples are at the levels that occur, lowest level first. */
  readonly noise: readonly NoiseAt[]
  /** Lowest level first. */
  readonly states: readonly State[]
  readonly segments: Segments
  readonly cycles: Cycles
}

export interface AnalyseOptions {
  /** Seconds since 1970-01-01T00:00Z at the first sample, to align cycles to clock minutes; null when not known. */
  readonly epoch_s?: number | null
}

/** Throws RangeError when no sample is a number. */
export function analyse(samples: Samples, options: AnalyseOptions = {}): Analysis {
  const { digit_A, path, scale } = segment(samples)
  const measured = measureSegments(samples, path)
  const { states, order } = summariseStates(path.levels, measured, scale)
  const segments: Segments = {
    interval_s: samples.interval_s,
    starts: path.starts,
    states: path.levels.map((level) => order[level]),
    times_s: measured.times_s,
    covered_s: measured.covered_s,
    edgeSeen: measured.edgeSeen,
    charge_C: measured.charge_C,
    mean_A: measured.mean_A,
  }
  return {
    interval_s: samples.interval_s,
    digit_A,
    noise: scale.noise,
    states,
    segments,
    cycles: cyclesOf(states, segments, options.epoch_s ?? null),
  }
}
