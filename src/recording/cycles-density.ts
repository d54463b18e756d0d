/** All wakes laid over each other on one time axis that begins with the wake: how many samples lie where. */
import type { Cycles } from './cycles.ts'
import { spanOfWakes } from './cycles-overlay.ts'
import type { Segments } from './segments.ts'
import type { Samples } from './states-samples.ts'

export interface CyclesDensity {
  /** From the first rise of the wake, in s. */
  readonly duration_s: number
  readonly columns: number
  readonly rows: number
  /** Ends of the rows, which are alike on a logarithmic scale; what lies beyond counts in the outermost. */
  readonly lowest_A: number
  readonly highest_A: number
  /** Samples, row by row from the lowest current. */
  readonly counts: Uint32Array
  /** How many wakes are laid over each other. */
  readonly wakes: number
}

export interface DensityOptions {
  readonly columns: number
  readonly rows: number
  /** Of a longer list, as many wakes spread over the recording as this many samples allow. */
  readonly mostSamples: number
}

const USUAL: DensityOptions = { columns: 400, rows: 120, mostSamples: 20_000_000 }
/** Below the lowest state, noise has room. */
const BELOW = 3
const ABOVE = 1.3
/** A state that draws next to nothing does not stretch the scale further than this share of the highest. */
const DEEPEST = 1e-8

/**
 * Columns count samples, so in an uneven recording they are columns of the usual interval. Null without wakes, or where
 * no current is above zero.
 */
export function cyclesDensity(
  samples: Samples,
  segments: Segments,
  cycles: Cycles,
  options: Partial<DensityOptions> = {},
): CyclesDensity | null {
  const { columns: most, rows, mostSamples } = { ...USUAL, ...options }
  const span_s = spanOfWakes(cycles)
  if (span_s === null) return null
  const length = Math.max(Math.round(span_s / samples.interval_s), 1)
  const ends = currentEnds(segments)
  if (ends === null) return null
  const columns = Math.min(most, length)
  const count = cycles.list.length
  const wakes = Math.max(Math.min(count, Math.floor(mostSamples / length)), 1)
  const density = {
    duration_s: length * samples.interval_s,
    columns,
    rows,
    ...ends,
    counts: new Uint32Array(columns * rows),
    wakes,
  }
  for (let k = 0; k < wakes; k++) {
    const start = segments.starts[cycles.list[Math.floor((k * count) / wakes)].from]
    addWake(density, samples.read(start, Math.min(start + length, samples.count)), length)
  }
  return density
}

function addWake(
  { columns, rows, lowest_A, highest_A, counts }: CyclesDensity,
  values: Float32Array | Float64Array,
  length: number,
): void {
  const low = Math.log(lowest_A)
  const perRow = rows / (Math.log(highest_A) - low)
  for (let i = 0; i < values.length; i++) {
    const x = values[i]
    if (x - x !== 0) continue
    const row = x > lowest_A ? Math.min(Math.floor((Math.log(x) - low) * perRow), rows - 1) : 0
    counts[row * columns + Math.floor((i * columns) / length)]++
  }
}

/** A little below the lowest level and above the highest. */
function currentEnds({ mean_A }: Segments): { lowest_A: number; highest_A: number } | null {
  const above = mean_A.filter((x) => x > 0)
  if (above.length === 0) return null
  const highest = above.reduce((a, b) => Math.max(a, b))
  const lowest = above.reduce((a, b) => Math.min(a, b))
  return { lowest_A: Math.max(lowest / BELOW, highest * DEEPEST), highest_A: highest * ABOVE }
}
