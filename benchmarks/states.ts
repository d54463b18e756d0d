/** States and cycles of a long recording held in memory: a device that wakes now and then, as one sample every 10 µs. */
import { normalQuantileFast } from '../src/numeric/normal.ts'
import { stream } from '../src/numeric/random.ts'
import { analyse } from '../src/recording/states.ts'
import { samplesOf } from '../src/recording/states-samples.ts'

export interface StatesBench {
  readonly samples: number
  readonly seconds: number
  readonly segments: number
  readonly wakes: number
  readonly wakesExpected: number
}

const INTERVAL_S = 1e-5
const PERIOD = 100_000
const REST_A = 0.0007
/** Samples from the start of each wake, and the current until then. */
const WAKE = [
  { until: 400, current_A: 0.31 },
  { until: 5_000, current_A: 0.05 },
  { until: 5_600, current_A: 0.18 },
  { until: 15_000, current_A: 0.03 },
] as const
const NOISE = 0.03

/** Makes `samples` of current (4 bytes each), then measures the analysis once; the making is not in the time. */
export function statesBench(samples: number): StatesBench {
  const current_A = longRecording(samples)
  const begin = performance.now()
  const { segments, cycles } = analyse(samplesOf(current_A, INTERVAL_S))
  return {
    samples,
    seconds: (performance.now() - begin) / 1000,
    segments: segments.starts.length,
    wakes: cycles.list.length,
    wakesExpected: Math.floor((samples - 1 - PERIOD / 2) / PERIOD) + 1,
  }
}

function longRecording(samples: number): Float32Array {
  const draws = stream(5, 0, 0)
  // A prime length keeps the noise out of step with the wakes.
  const noise = Float32Array.from({ length: 65_537 }, () => 1 + NOISE * normalQuantileFast(draws.uniform()))
  const current_A = new Float32Array(samples)
  for (let i = 0; i < samples; i++) {
    const place = (i + PERIOD / 2) % PERIOD
    const step = place < 15_000 ? WAKE.find(({ until }) => place < until) : undefined
    current_A[i] = (step?.current_A ?? REST_A) * noise[i % noise.length]
  }
  return current_A
}
