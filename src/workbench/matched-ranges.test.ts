/** An instrument's ranges decide what a check and an adoption may say: chosen by the current, or set by hand. */
import { beforeAll, describe, expect, it } from 'vitest'
import { recordingOf } from '../recording/memory.ts'
import { adoption } from './adopt.ts'
import { checkReport } from './check.ts'
import { readInstrument } from './instrument-file.ts'
import { matchedRecording } from './matched-recording.ts'
import { type OpenDesign, openDesign } from './open-design.ts'

const TEXT = `title: Gauge
overwinter: 1
wake:
  steps:
    - { name: send, for: 110 ms, draws: 30 mA }
cadence: { rate: 2 s }
rest: 25 µA
supply:
  cell: { type: LR6, series: 2 }
  brownout: 1.8 V
place: { weather: { place: Wellington } }
`

const METER = `instrument: meter
ranges:
  - { name: fine, up to: 1 mA, digit: 0.1 µA, accuracy: 1 % + 3 }
  - { name: middle, up to: 50 mA, digit: 0.1 mA, accuracy: 1 % + 3 }
`

let open: OpenDesign
beforeAll(async () => {
  open = await openDesign({ path: 'gauge.outpost.yaml', text: TEXT, folder: '.' }, null, false)
})

/** Every 2 s 100 ms at 25 mA, else 10 µA. */
const recording = recordingOf(
  {
    count: 6000,
    time_s: null,
    current_A: Float32Array.from({ length: 6000 }, (_, i) => ((i + 300) % 400 < 20 ? 25e-3 : 10e-6)),
    voltage_V: null,
  },
  { interval_s: 5e-3, name: 'bench.csv' },
)

function matched(meter: string, ranges: readonly string[] = []) {
  const read = readInstrument(meter)
  if (!('instrument' in read)) throw new Error(JSON.stringify(read.problems))
  return matchedRecording(open, recording, { instrument: read.instrument, maps: [], where: 'rail', ranges })
}

const items = (of: ReturnType<typeof matched>) =>
  checkReport('gauge.outpost.yaml', open.design.outpost, of, { slack: 0, cadence: false }).items

describe('ranges of the instrument', () => {
  it('that reach leave a verdict', () => {
    expect(items(matched(METER)).map(({ verdict }) => verdict)).toEqual(['pass', 'pass', 'pass'])
  })

  it('that do not reach leave none, and check and adopt say why', () => {
    const of = matched(METER.replace('50 mA', '20 mA'))
    const why = expect.stringContaining('beyond every range')
    expect(items(of)).toMatchObject([
      { kind: 'step', verdict: 'cannot tell', why },
      { kind: 'rest', verdict: 'pass', why: null },
      { kind: 'cycle', verdict: 'cannot tell', why },
    ])
    expect(adoption(open, of).notes).toContainEqual(expect.stringMatching(/^B: beyond every range/))
  })

  it('set by hand are those that count', () => {
    const [, rest] = items(matched(METER, ['0 s=middle']))
    // On the middle range the 10 µA of rest would read zero, below half of 0.1 mA: 25 µA cannot be told of it.
    expect(rest).toMatchObject({
      verdict: 'cannot tell',
      decided: { measured: { kind: 'below', limit: 50e-6 } },
    })
    expect(() => matched(METER, ['0 s=coarse'])).toThrow('the ranges are fine, middle')
  })
})
