import { spawn } from 'node:child_process'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import { parquetReadObjects } from 'hyparquet'
import { asyncBufferFromFile } from 'hyparquet/src/node.js'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { RecordingComparison } from '../src/report/recording-comparison.ts'
import type { RecordingReading } from '../src/report/recording-reading.ts'
import { BUILDS, demoRecording } from './demo-recordings.ts'
import { MAIN, overwinter, overwinterIn, type Ran } from './run-cli.ts'

const DEMOS = 'examples/recordings'
const [BEFORE, AFTER] = BUILDS.map(({ name }) => resolve(DEMOS, `${name}.csv.gz`))
const SHUNT = resolve('examples/instruments/shunt-amplifier.yaml')
const HAND = resolve('examples/instruments/hand-multimeter.yaml')
const OUTPOST = resolve('examples/avalanche-snow-depth.outpost.yaml')

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-recordings-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const run = (...args: string[]): Ran => overwinterIn(folder, ...args)
const reading = (...args: string[]) => JSON.parse(run('read', ...args, '--json').out) as RecordingReading
const widest = (text: string) => Math.max(...text.split('\n').map((line) => [...line].length))

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

interface Truth {
  readonly states: readonly { readonly name: string; readonly mean_A: number }[]
  readonly wakes: readonly number[]
  readonly rate_Hz: number
  readonly charge_C: number
}

describe('the demonstration recordings', () => {
  // One that is missing is written anew, as a snapshot would be.
  it.each(BUILDS)('$name is what its generator makes', (build) => {
    const { csv, truth } = demoRecording(build)
    const path = join(DEMOS, `${build.name}.csv.gz`)
    const beside = join(DEMOS, `${build.name}.truth.json`)
    if (!existsSync(path)) {
      mkdirSync(DEMOS, { recursive: true })
      writeFileSync(path, gzipSync(csv, { level: 9 }))
      writeFileSync(beside, truth)
    }
    expect(gunzipSync(readFileSync(path)).toString() === csv).toBe(true)
    expect(readFileSync(beside, 'utf8')).toBe(truth)
  })
})

describe('overwinter read', () => {
  it('finds the states, wakes and charge that the truth beside the recording states', () => {
    const { states, cycles, charge } = reading(BEFORE)
    const truth = JSON.parse(readFileSync(BEFORE.replace('.csv.gz', '.truth.json'), 'utf8')) as Truth
    const means = truth.states.map(({ mean_A }) => mean_A).sort((a, b) => a - b)
    expect(states).toHaveLength(means.length)
    for (const [k, mean_A] of means.entries())
      expect(Math.abs(states[k].mean_A / mean_A - 1)).toBeLessThan(0.01)
    expect(cycles.list.map(({ start_s }) => Math.round(start_s * truth.rate_Hz))).toEqual(truth.wakes)
    expect(cycles.list.flatMap(({ odd }, k) => (odd.length > 0 ? [k] : []))).toEqual([7])
    expect(Math.abs(charge.charge_C / truth.charge_C - 1)).toBeLessThan(1e-4)
    expect(states.map(({ rests }) => rests)).toEqual([true, false, false, false])
  })

  it('gives one verdict to terminal, JSON and report, and the report asks nothing of a network', () => {
    const html = join(folder, 'reading.html')
    const { verdict } = reading(AFTER)
    const { code, out, err } = run('read', AFTER, '--html', html)
    const page = readFileSync(html, 'utf8')
    expect(code).toBe(0)
    expect(err).toBe(`Report: ${html}\n`)
    expect(out.replace(/\s+/g, ' ')).toContain(verdict)
    expect(page).toContain(verdict)
    expect(page.match(/<svg/g)).toHaveLength(4)
    expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|<script|NaN|undefined/)
  })

  it('stays within 80 columns and without colour where it is not a terminal', () => {
    const { out } = run('read', AFTER, '--instrument', HAND, '--voltage', '3.3 V')
    expect(widest(out)).toBeLessThanOrEqual(80)
    expect(out).not.toContain('\u001b')
    expect(out).not.toMatch(/NaN|undefined|null/)
  })

  it('shows every flaw with its place, in terminal, JSON and report', () => {
    const html = join(folder, 'flawed.html')
    const { flawTotals, flaws, span } = reading(AFTER)
    expect(flawTotals.map(({ kind }) => kind)).toEqual(['damaged-line', 'gap', 'dropped'])
    expect(flaws.find(({ kind }) => kind === 'damaged-line')).toMatchObject({ line: 31_086, text: 'overrun' })
    expect(flaws.find(({ kind }) => kind === 'gap')).toMatchObject({ count: 150 })
    expect(span.missing_s).toBeCloseTo(151 / 250, 6)
    const shown = run('read', AFTER, '--html', html).out.replace(/\s+/g, ' ')
    for (const text of [shown, readFileSync(html, 'utf8')]) {
      expect(text).toContain('31086')
      expect(text).toContain('1 gap, 150 samples, 600 ms')
      expect(text).toContain('1 dropped stretch, 1 sample')
    }
  })

  it('refuses a flawed recording under --strict, read before or not, and takes a clean one', () => {
    const fresh = join(folder, 'fresh.csv.gz')
    copyFileSync(AFTER, fresh)
    for (const path of [fresh, AFTER]) {
      const { code, err } = run('read', path, '--strict')
      expect(code).toBe(2)
      expect(err).toMatch(/strict reading refuses this source: damaged-line \(1\), gap \(150\)/)
    }
    expect(run('read', BEFORE, '--strict').code).toBe(0)
  })

  it('reads a part: states, charge, flaws and times are of that part', () => {
    const part = reading(AFTER, '--from', '60 s', '--to', '100 s')
    expect(part.span.from_s).toBeCloseTo(60, 2)
    expect(part.span.duration_s).toBeCloseTo(40, 2)
    expect(part.flawTotals.map(({ kind }) => kind)).toEqual(['gap'])
    expect(part.flaws[0].at_s).toBeCloseTo(79.996 - 60, 2)
    const halves = [reading(BEFORE, '--to', '100 s'), reading(BEFORE, '--from', '100 s')]
    const sum = halves.reduce((total, { charge }) => total + charge.charge_C, 0)
    expect(sum).toBeCloseTo(reading(BEFORE).charge.charge_C, 9)
    const empty = run('read', BEFORE, '--from', '900 s')
    expect(empty).toMatchObject({ code: 2, out: '' })
    expect(empty.err).toContain('holds nothing of a recording of 197.428 s')
  })

  it('takes energy from a stated voltage', () => {
    const { span, charge } = reading(BEFORE, '--voltage', '3.3 V')
    expect(span.energy_J).toBeCloseTo(3.3 * charge.charge_C, 9)
    expect(reading(BEFORE).span.energy_J).toBeNull()
  })

  it('says when wakes keep to the clock', () => {
    // One wake at second 7 of each minute, sampled four times a second from 09:00:00 UTC on.
    const start = Date.UTC(2026, 0, 5, 9)
    const rows = Array.from({ length: 4 * 480 }, (_, i) => {
      const second = (i / 4) % 60
      const current = second >= 7 && second < 12 ? 0.021 : 0.000_04
      return `${new Date(start + 250 * i).toISOString()};${(current * (1 + 0.01 * Math.sin(7 * i))).toExponential(4)}`
    })
    const path = file('clock.csv', `time;current (A)\n${rows.join('\n')}\n`)
    const { cycles } = reading(path)
    expect(cycles.clock).toMatchObject({ minutes: 1 })
    expect(cycles.clock?.second_s).toBeCloseTo(7, 1)
    const { out } = run('read', path)
    expect(out).toContain('every minute, at second 7.0')
    expect(out).toContain('from 2026-01-05 09:00:00')
  })

  it('leaves with 2 and a line that says why, for what is no recording', () => {
    const words = file('words.csv', 'hello\nworld\n')
    const bare = file('bare.csv', 'current (mA)\n1\n2\n3\n')
    const blank = file('blank.csv', 'time (s),current (A)\n0,nan\n1,nan\n2,nan\n')
    for (const [args, message] of [
      [['nowhere.csv'], /^nowhere\.csv cannot be read: there is no such file\.$/],
      [[folder], /cannot be read: it is a folder\.$/],
      [[words], /no line of numbers/],
      [[bare], /give the sampling rate/],
      [[blank], /no line of numbers|no sample in it is a number/],
      [[BEFORE, '--instrument', 'nowhere.yaml'], /^nowhere\.yaml cannot be read/],
      [[BEFORE, '--export', 'samples.xlsx'], /End it in \.csv, \.npy or \.parquet/],
      [[BEFORE, '--range', '2 s=mA'], /state the instrument/],
      [[BEFORE, '--instrument', HAND, '--range', '2 s=kA'], /the ranges are µA, mA, A/],
      [[BEFORE, '--voltage', '3.3 mAh'], /--voltage/],
      [[bare, '--rate', 'often'], /sampling rate above 0 Hz/],
    ] as const) {
      const { code, out, err } = run('read', ...args)
      expect({ args, code, out }).toEqual({ args, code: 2, out: '' })
      expect(err.split('\n')[0]).toMatch(message)
      expect(err).not.toContain('fault of Overwinter')
    }
    expect(run('read', bare, '--rate', '1 kHz').code).toBe(0)
  })
})

describe('the instrument', () => {
  it('widens each state by what its maker allows, as JCGM 100 has it', () => {
    const { states, instrument, charge } = reading(BEFORE, '--instrument', SHUNT)
    expect(instrument).toBe('shunt amplifier with three ranges')
    expect(states.map(({ range }) => range)).toEqual(['fine', 'middle', 'coarse', 'coarse'])
    const { current, u_A, mean_A } = states[3]
    // ± (0.2 % + 60 µA), rectangular (4.3.7), with the scatter; rounding to 8 µA is averaged out by noise.
    const limit_A = 0.002 * mean_A + 60e-6
    expect(current.kind === 'normal' && current.u).toBeCloseTo(Math.hypot(limit_A / Math.sqrt(3), u_A), 7)
    expect(charge.u_C).toBeGreaterThan(0)
    expect(reading(BEFORE).charge.u_C).toBeNull()
  })

  it('makes a zero on a coarse range half a digit at most', () => {
    const { states, verdict } = reading(BEFORE, '--instrument', HAND, '--range', '0 s=A')
    expect(states[0].current).toEqual({ kind: 'below', limit: 0.005 })
    expect(verdict).toContain('at rest it draws < 5 mA')
  })

  it('takes the coarser of two ranges where it was changed on the way', () => {
    const changed = ['--range', '0 s=µA', '--range', '100 s=mA']
    const { states } = reading(BEFORE, '--instrument', HAND, ...changed)
    expect(states[0].range).toBe('mA')
    // On the fine range the wakes before the change are beyond what it shows.
    expect(states[3].range).toBeNull()
    expect(run('read', BEFORE, '--instrument', HAND, ...changed).out).toContain('beyond every range')
  })

  it('says by how much its burden shifts a current, and what it is too slow for', () => {
    const out = run('read', BEFORE, '--instrument', HAND, '--voltage', '3.3 V').out.replace(/\s+/g, ' ')
    // 43 mA through 3 Ω are 129 mV.
    expect(out).toMatch(/In D the instrument takes 130 mV of the supply/)
    expect(out).toMatch(/B lasts 60 ms, .* 53 % of its height/)
  })

  it.each([
    ['an unknown key', 'instrument: x\nranges:\n  - { up to: 1 A, burdon: 1 Ω }\n', 3, 'unknown-key'],
    ['a missing limit', 'instrument: x\nranges:\n  - { digit: 1 mA }\n', 3, 'missing-key'],
    ['a wrong unit', 'instrument: x\nranges:\n  - { up to: 1 mAh }\n', 3, 'unit-wrong-dimension'],
    [
      'an accuracy in words',
      'instrument: x\nranges:\n  - { up to: 1 A, accuracy: good }\n',
      3,
      'accuracy-unreadable',
    ],
    [
      'ranges that fall',
      'instrument: x\nranges:\n  - { up to: 1 A }\n  - { up to: 1 mA }\n',
      4,
      'ranges-out-of-order',
    ],
    [
      'digits of no size',
      'instrument: x\nranges:\n  - { up to: 1 A, accuracy: 1 % + 2 digits }\n',
      3,
      'digit-missing',
    ],
    ['no ranges', 'instrument: x\n', 1, 'missing-key'],
    ['nothing', '', 1, 'missing-key'],
    ['broken YAML', 'instrument: [\n', 2, 'yaml-'],
  ])('%s in its file is named with line and cure', (_what, text, line, codeOf) => {
    const path = file('bad-instrument.yaml', text)
    const { code, out, err } = run('read', BEFORE, '--instrument', path)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(new RegExp(`bad-instrument\\.yaml:${line}:\\d+: error .*\\[${codeOf}`))
    expect(err).toContain('cure: ')
  })
})

describe('export', () => {
  it.each(['csv', 'npy'])('.%s is read back as the same samples', (kind) => {
    const path = join(folder, `part.${kind}`)
    const { code, err } = run('read', BEFORE, '--from', '20 s', '--to', '60 s', '--export', path)
    expect(code).toBe(0)
    expect(err).toBe(`Exported 10000 samples: ${path}\n`)
    const [part, back] = [reading(BEFORE, '--from', '20 s', '--to', '60 s'), reading(path)]
    expect(back.samples).toBe(part.samples)
    expect(back.charge.charge_C).toBeCloseTo(part.charge.charge_C, 9)
  })

  it('.parquet is read by an independent reader', async () => {
    const path = join(folder, 'part.parquet')
    run('read', BEFORE, '--to', '1 s', '--export', path)
    const rows = await parquetReadObjects({ file: await asyncBufferFromFile(path) })
    expect(rows).toHaveLength(250)
    expect(rows[1]).toEqual({ time_s: 0.004, current_A: Math.fround(3.4e-6) })
  })
})

describe('an import', () => {
  it('that is interrupted leaves nothing half made, and leaves with 130', async () => {
    const place = mkdtempSync(join(folder, 'stopped-'))
    const store = join(place, '.overwinter', 'recordings')
    const path = join(place, 'long.csv.gz')
    writeFileSync(path, gzipSync('0.000041\n0.000043\n0.000042\n'.repeat(3_000_000), { level: 1 }))
    const child = spawn(process.execPath, [MAIN, 'read', path, '--rate', '1000'], { cwd: place })
    let err = ''
    child.stderr.on('data', (piece) => {
      err += piece
    })
    const ended = new Promise<number | null>((done) => child.on('close', done))
    const begun = () => existsSync(store) && readdirSync(store).some((name) => name.startsWith('.partial-'))
    while (!begun() && child.exitCode === null) await new Promise((wait) => setTimeout(wait, 2))
    child.kill('SIGINT')
    expect(await ended).toBe(130)
    expect(err).toBe('Interrupted; nothing was written.\n')
    expect(readdirSync(store)).toEqual([])
  })

  it('is done once for the same source', () => {
    const place = mkdtempSync(join(folder, 'twice-'))
    const first = overwinterIn(place, 'read', BEFORE).out
    const store = join(place, '.overwinter', 'recordings')
    const [kept] = readdirSync(store)
    expect(overwinterIn(place, 'read', BEFORE).out).toBe(first)
    expect(readdirSync(store)).toEqual([kept])
  })
})

describe('overwinter compare A B', () => {
  const compared = (...args: string[]) =>
    JSON.parse(run('compare', ...args, '--json').out) as RecordingComparison

  it('finds the state that appeared, the rest that rose, and nothing else', () => {
    const { difference, before, after } = compared(BEFORE, AFTER)
    const of = (kind: string) => difference.states.filter((state) => state.kind === kind)
    expect(of('appeared').map(({ after: k }) => after.states[k ?? 0].mean_A)).toEqual([
      expect.closeTo(10.5e-3, 4),
    ])
    expect(of('vanished')).toEqual([])
    expect(of('shifted').map(({ before: k }) => before.states[k ?? 0].rests)).toEqual([true])
    const rest = of('shifted')[0].current
    expect(rest?.low).toBeLessThan(5.3e-6)
    expect(rest?.high).toBeGreaterThan(5.3e-6)
    expect(difference.charge?.significant).toBe(true)
  })

  it('finds nothing between a recording and itself', () => {
    const { difference, verdict } = compared(BEFORE, BEFORE)
    expect(difference.states.every(({ kind }) => kind === 'same')).toBe(true)
    expect(verdict).toBe('A cycle takes as much as before.')
  })

  it('says what it does to an outpost, the same for any number of threads', () => {
    const small = ['--file', OUTPOST, '--runs', '20', '--years', '20']
    const { outlook, verdict } = compared(BEFORE, AFTER, ...small, '--threads', '1')
    expect(compared(BEFORE, AFTER, ...small, '--threads', '2').outlook).toEqual(outlook)
    expect(outlook?.differences.life_days.isReal).toBe(true)
    expect(outlook?.differences.life_days.mean).toBeLessThan(-5 * 365)
    const { out } = run('compare', BEFORE, AFTER, ...small)
    expect(out.replace(/\s+/g, ' ')).toContain(verdict)
    expect(widest(out)).toBeLessThanOrEqual(80)
    const none = compared(BEFORE, BEFORE, ...small).outlook
    expect(none?.differences.life_days.mean).toBe(0)
  })

  it('tells its two forms apart, and says which option belongs to which', () => {
    const alone = run('compare', BEFORE)
    expect(alone).toMatchObject({ code: 2, out: '' })
    expect(alone.err).toContain('name a second recording')
    expect(run('compare', BEFORE, AFTER, '--html', 'x.html').err).toContain('--html goes with the variants')
    expect(run('compare', OUTPOST, '--file', OUTPOST).err).toContain('--file goes with two recordings')
    expect(run('compare', BEFORE, 'nowhere.csv')).toMatchObject({ code: 2, out: '' })
  })

  it('cannot play an outpost from a recording without wakes', () => {
    const rows = Array.from({ length: 400 }, (_, i) => `${i / 100},${0.02 + 1e-5 * Math.sin(i)}`)
    const steady = file('steady.csv', `time (s),current (A)\n${rows.join('\n')}\n`)
    expect(run('read', steady).out).toContain('A steady 20')
    const { code, err } = run('compare', BEFORE, steady, '--file', OUTPOST)
    expect(code).toBe(2)
    expect(err).toContain('steady.csv shows fewer than two whole wakes')
  })
})

describe('docs/recordings.md', () => {
  const page = 'docs/recordings.md'
  const text = readFileSync(page, 'utf8')
  const shown = [...text.matchAll(/```console\n\$ overwinter (.*)\n([\s\S]*?)```/g)].map(
    ([block, command, output]) => ({ block, command, output }),
  )

  it('shows commands', () => expect(shown.length).toBeGreaterThanOrEqual(3))

  // An output that is missing is written anew, as a snapshot would be.
  it.each(shown)('$command', ({ block, command, output }) => {
    const args = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare)
    const { out } = overwinter(...args)
    if (output === '') {
      const filled = `\`\`\`console\n$ overwinter ${command}\n${out}\`\`\``
      writeFileSync(
        page,
        readFileSync(page, 'utf8').replace(block, () => filled),
      )
    } else expect(out).toBe(output)
  })

  it.each([...text.matchAll(/```yaml\n([\s\S]*?)```/g)].map(([, yaml]) => yaml))('instrument %#', (yaml) => {
    expect(run('read', BEFORE, '--instrument', file('documented.yaml', yaml)).code).toBe(0)
  })
})
