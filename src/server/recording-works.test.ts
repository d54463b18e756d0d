/** Long work on recordings, asked over the routes: beside the truth of made-up recordings, and beside the command's answers. */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { hasTerminals } from '../../test/on-terminal.ts'
import { openPort } from '../../test/serial-port.ts'
import { allTold, type Bench, benchWith, toldBy } from '../../test/workbench-app.ts'
import type { Reading, RecordingMatch } from '../api/bench.ts'
import type { Answers, Asked, Told, Work } from '../api/work.ts'
import { best } from '../quantity/spread.ts'

const BUILD_41 = 'snow-depth-build-41.csv.gz'
const BUILD_42 = 'snow-depth-build-42.csv.gz'
const METER = 'hand-multimeter.yaml'
const example = (name: string) => readFileSync(join('examples', name))
const GAUGE = example('avalanche-snow-depth.outpost.yaml').toString()
const TRUTH = JSON.parse(example('recordings/snow-depth-build-41.truth.json').toString()) as {
  readonly rate_Hz: number
  readonly states: readonly { readonly mean_A: number }[]
  readonly wakes: readonly number[]
  readonly sendsAgainIn: number
  readonly charge_C: number
}

let bench: Bench
beforeAll(() => {
  bench = benchWith({
    'snow.outpost.yaml': GAUGE,
    [BUILD_41]: example(`recordings/${BUILD_41}`),
    [BUILD_42]: example(`recordings/${BUILD_42}`),
    [METER]: example(`instruments/${METER}`),
    'bad-meter.yaml': 'instrument: meter\nranges:\n  - up to: a lot\n',
  })
})
afterAll(() => {
  expect(bench.faults).toEqual([])
  bench.close()
})

const told = async (asked: Asked): Promise<Told[]> => allTold(await bench.send('POST', '/api/work', asked))

async function answered<W extends Work>(asked: Extract<Asked, { work: W }>): Promise<Answers[W]> {
  const last = (await told(asked)).at(-1)!
  if (last.event !== 'done') throw new Error(JSON.stringify(last))
  return last.answer as Answers[W]
}

async function refused(asked: Asked): Promise<string> {
  const last = (await told(asked)).at(-1)!
  if (last.event !== 'refused') throw new Error(JSON.stringify(last).slice(0, 400))
  expect(last.isOurs).toBe(false)
  return last.why
}

const reading = (file: string, more: Partial<Reading> = {}): Reading => ({
  file,
  rate_Hz: null,
  from_s: null,
  to_s: null,
  voltage_V: null,
  instrument: null,
  ...more,
})

const match = (file: string, more: Partial<RecordingMatch> = {}): RecordingMatch => ({
  file,
  rate_Hz: null,
  instrument: null,
  outpost: { file: 'snow.outpost.yaml', text: GAUGE, variant: null },
  maps: [],
  where: 'rail',
  ...more,
})

describe('reading', () => {
  it('finds the states, wakes and the odd one that were made up, and says how far it is', async () => {
    const events = await told({ work: 'read', ...reading(BUILD_41) })
    expect(events.some(({ event }) => event === 'progress')).toBe(true)
    const { reading: found, bands, cycles, density } = (events.at(-1) as { answer: Answers['read'] }).answer
    expect(cycles).toBe(TRUTH.wakes.length)
    found.states.forEach(({ mean_A, u_A }, k) => {
      expect(Math.abs(mean_A - TRUTH.states[k].mean_A)).toBeLessThan(5 * u_A)
    })
    found.cycles.list.forEach(({ start_s, odd }, k) => {
      expect(Math.abs(start_s - TRUTH.wakes[k] / TRUTH.rate_Hz)).toBeLessThanOrEqual(2 / TRUTH.rate_Hz)
      expect(odd.length > 0).toBe(k === TRUTH.sendsAgainIn)
    })
    // The truth is of the flow itself; what was written is rounded to 0.1 µA.
    expect(Math.abs(found.charge.charge_C / TRUTH.charge_C - 1)).toBeLessThan(1e-4)
    expect(bands.times_s.length).toBe(bands.states.length + 1)
    expect(bands.times_s.at(-1)).toBeCloseTo(found.span.duration_s, 9)
    expect(density!.wakes).toBe(TRUTH.wakes.length)
    const counted = density!.counts.reduce((a, b) => a + b, 0)
    expect(counted).toBe(TRUTH.wakes.length * Math.round(density!.duration_s * TRUTH.rate_Hz))
  })

  it('of a span tells places from the start of the recording', async () => {
    const { reading: found, bands } = await answered<'read'>({
      work: 'read',
      ...reading(BUILD_41, { from_s: 60, to_s: 120, instrument: METER, voltage_V: 3.3 }),
    })
    expect(bands.times_s[0]).toBeCloseTo(60, 2)
    expect(bands.times_s.at(-1)).toBeCloseTo(120, 2)
    expect(found.instrument).toBe('hand multimeter of 4000 counts')
    expect(found.span.energy_J).toBeCloseTo(3.3 * found.span.charge_C, 12)
    const wakes = TRUTH.wakes.filter((wake) => wake / TRUTH.rate_Hz > 60 && wake / TRUTH.rate_Hz < 120)
    expect(found.cycles.list.length).toBe(wakes.length)
  })

  it('says what is wrong with the instrument file, by its own name', async () => {
    const why = await refused({ work: 'read', ...reading(BUILD_41, { instrument: 'bad-meter.yaml' }) })
    expect(why).toContain('bad-meter.yaml:3:')
    expect(why).not.toContain(bench.folder)
    expect(await refused({ work: 'read', ...reading(BUILD_41, { instrument: '../x.yaml' }) })).toContain(
      'is not served',
    )
    expect(await refused({ work: 'read', ...reading(BUILD_41, { from_s: 500, to_s: 600 }) })).toContain(
      'holds nothing',
    )
  })
})

describe('adopting', () => {
  it('asks which state is which step where it is not clear, and previews the text once it is', async () => {
    // Ten times what was measured.
    const far = {
      file: 'snow.outpost.yaml',
      text: GAUGE.replace('is: 18 mA', 'is: 180 mA'),
      variant: null,
    }
    const unclear = await answered<'adopt'>({ work: 'adopt', ...match(BUILD_42, { outpost: far }) })
    expect(unclear.adoption).toBeNull()
    const asked = unclear.states.filter(({ taken }) => taken === null)
    expect(asked.length).toBeGreaterThan(0)
    for (const { doubt } of asked) expect(doubt).not.toBeNull()
    expect(unclear.roles).toEqual([
      'measure depth',
      'measure air',
      'send',
      'listen for orders',
      'rest',
      "capacitor's balancing",
      'none',
    ])
    const clear = await answered<'adopt'>({
      work: 'adopt',
      ...match(BUILD_42, {
        maps: ['A = rest', 'B = measure air', 'C = none', 'D = measure depth', 'E = send'],
      }),
    })
    expect(clear.states.map(({ taken }) => taken)).toEqual([
      'rest',
      'measure air',
      'none',
      'measure depth',
      'send',
    ])
    const { after, difference, numbers, notes } = clear.adoption!
    const lines = difference.split('\n')
    expect(
      lines.filter((line) => line.startsWith('-    ')).every((line) => GAUGE.includes(line.slice(1))),
    ).toBe(true)
    expect(
      lines.filter((line) => line.startsWith('+    ')).every((line) => after.includes(line.slice(1))),
    ).toBe(true)
    expect(after).toContain(`source: "recording ${BUILD_42}, state E"`)
    expect(after).toContain('# The lithium cell gives little current at once')
    expect(numbers.find(({ path }) => path === 'rest')!.before).toBe('2.6 µA ± 0.6 µA')
    expect(notes.join(' ')).toContain('listen for orders')
    // Nothing is written: the page does that, as an edit like any other.
    expect(readFileSync(join(bench.folder, 'snow.outpost.yaml'), 'utf8')).toBe(GAUGE)
  })

  it('refuses a mapping that names what is not there, and an outpost with errors', async () => {
    expect(await refused({ work: 'adopt', ...match(BUILD_41, { maps: ['A = fly'] }) })).toContain(
      'no step "fly"',
    )
    const outpost = { file: 'snow.outpost.yaml', text: 'wake: 3\n', variant: null }
    expect(await refused({ work: 'adopt', ...match(BUILD_41, { outpost }) })).toContain(
      'snow.outpost.yaml:1:',
    )
  })
})

describe('checking', () => {
  const maps = ['A = rest', 'B = measure air', 'C = none', 'D = measure depth', 'E = send']

  it('fails the build that forgot to switch off, with the reason', async () => {
    const { report, text, junit } = await answered<'check'>({
      work: 'check',
      ...match(BUILD_42, { maps }),
      slack: 0,
      cadence: false,
    })
    expect(report.verdict).toBe('fail')
    expect(report.items.find(({ kind }) => kind === 'rest')!.verdict).toBe('fail')
    expect(text).toContain('is outside the budget of snow.outpost.yaml')
    expect(junit).toContain('<testsuite')
  })

  it('says which states somebody has to name', async () => {
    const asked = { work: 'check', ...match(BUILD_42), slack: 0, cadence: false } as const
    const last = (await told(asked)).at(-1)!
    if (last.event === 'refused') expect(last.why).toContain('which state is which step')
    else expect(last.event).toBe('done')
  })
})

describe('comparing', () => {
  it('tells what changed from one build to the next, and what that does to the outpost that is open', async () => {
    // A smaller cell, so that few years have to be played.
    const small = GAUGE.replace('2400 mAh', '240 mAh').replace('years: 10', 'years: 1')
    const comparison = await answered<'compare recordings'>({
      work: 'compare recordings',
      before: reading(BUILD_41),
      after: reading(BUILD_42),
      outpost: { file: 'snow.outpost.yaml', text: small, variant: null, seed: 1 },
    })
    const appeared = comparison.difference.states.filter(({ kind }) => kind === 'appeared')
    expect(appeared).toHaveLength(1)
    const state = comparison.after.states[appeared[0].after!]
    expect(Math.abs(best(state.current) / 10.5e-3 - 1)).toBeLessThan(0.01)
    const rest = comparison.difference.states.find(({ before }) => before === 0)!
    expect(Math.abs(rest.current!.difference - 5.3e-6)).toBeLessThan(0.05e-6)
    expect(comparison.outlook!.differences.life_days.isReal).toBe(true)
    expect(comparison.outlook!.differences.life_days.mean).toBeLessThan(0)
  }, 240_000)
})

describe.skipIf(!hasTerminals)('recording from a serial port', () => {
  const lines = (from: number, to: number) =>
    Array.from({ length: to - from }, (_, k) => {
      const i = from + k
      return `${(i / 1000).toFixed(3)},${Math.floor(i / 100) % 2 === 0 ? '0.0001' : '0.02'}\n`
    }).join('')
  const id = 'a-recording-1'
  const asked = (port: string, out: string) =>
    ({ work: 'record', port, baud: 115_200, out, rate_Hz: null, id }) as const

  it('shows what comes, and keeps it when it is stopped', async () => {
    const port = await openPort()
    const response = await bench.send('POST', '/api/work', asked(port.name, 'live.csv'))
    let hasSaid = false
    let answer: Answers['record'] | null = null
    for await (const event of toldBy(response)) {
      if (event.event === 'refused') throw new Error(event.why)
      if (event.event === 'done') answer = event.answer as Answers['record']
      if (event.event !== 'picture') continue
      if (!hasSaid) port.say(`cut short\n${lines(0, 3000)}`)
      hasSaid = true
      if (event.picture.picture.samples < 3000) continue
      expect(event.picture).toMatchObject({ out: 'live.csv', problem: null, ending: null })
      expect((await bench.send('POST', `/api/work/stop?id=${id}`, {})).status).toBe(200)
    }
    port.pull()
    expect(answer).toMatchObject({ ending: 'stopped', out: 'live.csv', problem: null })
    // 15 stretches of 0.1 s at each level; the last sample has no end yet.
    expect(answer!.picture.charge_C).toBeCloseTo(1.5 * 1e-4 + 1.499 * 0.02, 8)
    expect(readFileSync(join(bench.folder, 'live.csv'), 'utf8')).toBe(lines(0, 3000))
    expect((await bench.send('POST', `/api/work/stop?id=${id}`, {})).status).toBe(404)
    expect(await refused(asked(port.name, 'live.csv'))).toContain('live.csv exists already')
  })

  it.each([
    ['/etc/passwd', 'new.csv', 'is no serial port'],
    ['/dev/../etc/passwd', 'new.csv', 'is no serial port'],
    ['/dev/null', 'new.csv', 'is no serial port'],
    ['/dev/no-such-port', 'new.csv', 'there is no such port'],
    ['/dev/null', '../new.csv', 'is not served'],
    ['/dev/null', 'new.npy', 'kept as a .csv file'],
  ])('refuses %s into %s', async (port, out, why) => {
    expect(await refused(asked(port, out))).toContain(why)
    expect(existsSync(join(bench.folder, out))).toBe(false)
  })

  it('names the ports that there are', async () => {
    const { ports } = (await (await bench.ask('/api/ports')).json()) as { ports: string[] }
    for (const port of ports) expect(port).toMatch(/^\/dev\//)
  })
})
