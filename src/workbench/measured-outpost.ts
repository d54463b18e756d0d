/** An outpost with what a recording shows in place of the steps and the rest that its file states. In memory only. */
import { atBest } from '../outlook/draw.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { exactly, type Uncertain } from '../quantity/uncertain.ts'
import { estimateOfMean } from '../recording/difference-test.ts'
import type { Analysis } from '../recording/states.ts'
import type { StateReading } from '../report/recording-reading.ts'
import { momentsOf } from '../wake/moments.ts'
import type { Step } from '../wake/wake.ts'
import { Refusal } from './refusal.ts'

/**
 * Each state above rest is one step: its mean current, and its mean time in a wake, retries and odd wakes included, so
 * that the expected charge is what was measured. Cadence, supply, place and aims stay those of the file. The recording is
 * taken to be of the device's rail, where drains from the rail are in it already. Throws a Refusal where it shows no
 * wakes to take.
 */
export function measuredOutpost(
  outpost: Outpost,
  { analysis, file, states }: { analysis: Analysis; file: string; states: readonly StateReading[] },
): Outpost {
  const { rest } = analysis.cycles
  if (rest === null || measuredWakes(analysis).length < 2)
    throw new Refusal(
      `${file} shows fewer than two whole wakes that were measured without a gap, so nothing of it can stand for the steps of ${outpost.title}. Record two or more without lost time.`,
    )
  const reports = momentsOf(atBest(outpost).wake).reports
  const working = states.flatMap((state, index) => (index > rest ? [{ state, index }] : []))
  const steps = working.map(({ state, index }, k): Step => {
    const isLast = k === working.length - 1
    return {
      name: `state ${state.name}`,
      duration_s: timePerWake(analysis, index),
      current_A: state.current,
      peak: null,
      chance: exactly(1),
      every: 1,
      retries: null,
      reports: isLast ? reports : 0,
      rail: null,
      note: null,
    }
  })
  const { wake, supply } = outpost
  return {
    ...outpost,
    wake: {
      ...wake,
      steps,
      boot: [],
      rest_A: states[rest].current,
      standing: wake.standing.filter(({ from }) => from === 'cell' && supply.regulator.kind !== 'none'),
    },
  }
}

/** Time that is not known would count as time at work. */
const measuredWakes = ({ cycles }: Analysis) => cycles.list.filter(({ measured }) => measured)

function timePerWake(analysis: Analysis, state: number): Uncertain {
  const { states, times_s } = analysis.segments
  const times = measuredWakes(analysis).map(({ from, to }) => {
    let time_s = 0
    for (let k = from; k < to; k++) if (states[k] === state) time_s += times_s[k + 1] - times_s[k]
    return time_s
  })
  const estimate = estimateOfMean(times)
  if (estimate === null) throw new RangeError('a mean needs two wakes')
  const { value, u } = estimate
  if (u === 0) return exactly(value)
  if (u <= MOST_NORMAL * value) return { kind: 'normal', value, u }
  const half = Math.min(Math.sqrt(3) * u, value) // JCGM 100, 4.3.7
  return { kind: 'uniform', low: value - half, high: value + half }
}

/** A mean less sure than this could be drawn below zero: then it is taken as anywhere around, and not below. */
const MOST_NORMAL = 0.2
