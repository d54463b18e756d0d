/**
 * Light and air for the step function, a day at a time. A source is either drawn from a climate or replayed from a
 * weather year; both write into the same two buffers.
 */
import type { Stream } from '../numeric/random.ts'

export interface SkySource {
  readonly stepsPerHour: number
  /** Begins a new path; a replayed year takes no notice of the stream. */
  start(stream: Stream): void
  /**
   * Fills `light` (irradiance on the panel's plane, W/m²) and `air` (°C) for day 0..364 of the year, 24 · stepsPerHour
   * values each. Days must be asked for in order.
   */
  day(dayOfYear: number, light: Float64Array, air: Float64Array): void
}

export const DAYS_PER_YEAR = 365
