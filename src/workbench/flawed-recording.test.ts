/** What is wrong with a recording reaches whoever checks a build by it or takes numbers over from it. */
import { beforeAll, describe, expect, it } from 'vitest'
import { recordingOf } from '../recording/memory.ts'
import { checkToTerminal } from '../report/check-report.ts'
import { PLAIN } from '../report/terminal.ts'
import { adoption } from './adopt.ts'
import { checkReport } from './check.ts'
import { matchedRecording } from './matched-recording.ts'
import { type OpenDesign, openDesign } from './open-design.ts'

const TEXT = `title: Gauge
overwinter: 1
wake:
  steps:
    - { name: sense, for: 120 ms, draws: 6 mA }
    - { name: send, for: 70 ms, draws: 30 mA }
cadence: { rate: 2 s }
rest: 25 µA
supply:
  cell: { type: LR6, series: 2 }
  brownout: 1.8 V
place: { weather: { place: Wellington } }
`

let open: OpenDesign
beforeAll(async () => {
  open = await openDesign({ path: 'gauge.outpost.yaml', text: TEXT, folder: '.' }, null, false)
})

/** Every 2 s 100 ms at 5 mA and 60 ms at 25 mA, else 10 µA; what the range or the clock makes of it. */
function recorded(measured: (current_A: number, into: number) => number) {
  const noise = (i: number) => 1 + 0.02 * Math.sin(1.7 * i) * Math.cos(0.3 * i * i)
  const into = (i: number) => (i + 300) % 400
  const level = (k: number) => (k < 20 ? 5e-3 : k < 32 ? 25e-3 : 10e-6)
  const current_A = Float32Array.from({ length: 6000 }, (_, i) =>
    measured(level(into(i)) * noise(i), into(i)),
  )
  return recordingOf(
    { count: 6000, time_s: null, current_A, voltage_V: null },
    { interval_s: 5e-3, name: 'bench.csv' },
  )
}

const matched = (recording: ReturnType<typeof recorded>, maps: readonly string[] = []) =>
  matchedRecording(open, recording, { instrument: null, maps, where: 'rail' })
const checked = (recording: ReturnType<typeof recorded>) =>
  checkReport('gauge.outpost.yaml', open.design.outpost, matched(recording), { slack: 0, cadence: false })
const verdicts = (recording: ReturnType<typeof recorded>) =>
  checked(recording).items.map(({ verdict }) => verdict)

const sound = recorded((x) => x)
const clipped = recorded((x) => Math.min(x, 20e-3))
const overloaded = recorded((x) => (x > 15e-3 ? Number.NaN : x))

describe('check', () => {
  it('passes what is sound', () => {
    expect(verdicts(sound)).toEqual(['pass', 'pass', 'pass', 'pass'])
    expect(checkToTerminal(checked(sound), false, PLAIN)).not.toContain('wrong')
  })

  it('cannot tell of what was clipped, and says that it was', () => {
    expect(verdicts(clipped)).toEqual(['pass', 'cannot tell', 'pass', 'cannot tell'])
    expect(checked(clipped).flaws).toMatchObject([{ kind: 'saturated', places: 15 }])
    expect(checkToTerminal(checked(clipped), false, PLAIN)).toContain('bench.csv has 15 clipped stretches')
  })

  it('cannot tell of steps whose end was not measured', () => {
    expect(verdicts(overloaded)).toEqual(['cannot tell', 'cannot tell', 'pass', 'cannot tell'])
  })
})

describe('adopt', () => {
  it('wants to be told about a clipped state, and then says what it wrote', () => {
    expect(matched(sound).match.doubts).toEqual([])
    expect(matched(clipped).match.doubts).toEqual([{ kind: 'clipped', state: 2, steps: [1] }])
    const told = matched(clipped, ['C = send'])
    expect(told.match.doubts).toEqual([])
    const { notes } = adoption(open, told)
    expect(notes[0]).toContain('bench.csv has 15 clipped stretches')
    expect(notes.at(-1)).toContain('State C is clipped')
  })

  it('writes no duration that was not measured', () => {
    const { numbers, notes } = adoption(open, matched(overloaded))
    expect(numbers.map(({ path }) => path.join('.'))).toEqual(['wake.steps.0.draws', 'rest'])
    expect(notes[0]).toContain('bench.csv has 15 places without a number')
  })
})
