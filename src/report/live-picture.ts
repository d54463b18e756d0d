/** A recording under way, drawn in a few lines of a terminal. */
import { formatQuantity, inUnit, unitFor } from '../quantity/format.ts'
import { traceLine } from './recording-trace-line.ts'

export interface LivePicture {
  /** Highest current of each bin, the latest last; NaN where there was none. */
  readonly highest_A: readonly number[]
  readonly bin_s: number
  /** Null with too few samples to tell. */
  readonly now: {
    readonly state: number
    readonly of: number
    readonly current_A: number
    readonly since_s: number
  } | null
  readonly mean_A: number | null
  readonly charge_C: number
  readonly duration_s: number
  readonly samples: number
  readonly lostSamples: number
  readonly damagedLines: number
}

const DIGITS = { digits: 4 } as const

export function liveLines(picture: LivePicture): string[] {
  const { highest_A, bin_s, now, samples } = picture
  if (samples === 0)
    return ['Nothing has come yet. Is it on, and are port and speed right?', ...lossesOf(picture)]
  const span = `last ${seconds(highest_A.length * bin_s)}, highest ${formatQuantity(highest(highest_A), 'current', { digits: 3 })}`
  const level =
    now === null
      ? 'level: not to be told yet'
      : `now ${formatQuantity(now.current_A, 'current', DIGITS)} for ${seconds(now.since_s)}: state ${now.state + 1} of ${now.of} seen lately`
  return [`${traceLine({ max_A: Float32Array.from(highest_A) })}▏ ${span}`, level, ...totals(picture)]
}

/** What it comes to so far, and what was lost on the way. */
export function totals(picture: LivePicture): string[] {
  const { mean_A, charge_C, samples, duration_s } = picture
  const mean = mean_A === null ? 'no mean yet' : `mean ${formatQuantity(mean_A, 'current', DIGITS)}`
  const charge = inUnit(charge_C, unitFor(Math.min(Math.abs(charge_C), 3), 'charge'), 4)
  return [`${mean}, charge ${charge}, ${samples} samples in ${seconds(duration_s)}`, ...lossesOf(picture)]
}

function lossesOf({ lostSamples, damagedLines }: LivePicture): string[] {
  if (lostSamples === 0 && damagedLines === 0) return []
  return [`lost: ${lostSamples} samples that did not come, ${damagedLines} lines that could not be read`]
}

const highest = (values: readonly number[]): number => Math.max(...values.filter(Number.isFinite))

const seconds = (time_s: number): string =>
  time_s < 100 ? `${Number(time_s.toPrecision(3))} s` : formatQuantity(time_s, 'duration', { digits: 3 })
