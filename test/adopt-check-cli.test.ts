/** Measured numbers into an outpost file, and builds against it, as a user would do both. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { makeUp } from '../src/recording/made-up.ts'
import type { CheckReport } from '../src/report/check-report.ts'
import { planOfBuild } from './adopt-check-recordings.ts'
import { hasTerminals, onTerminal } from './on-terminal.ts'
import { overwinterIn } from './run-cli.ts'

let folder: string
const overwinter = (...args: string[]) => overwinterIn(folder, ...args)
let file: string
const recording = (name: string) => join(folder, name)

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-adopt-'))
  for (const [name, build] of [
    ['good.csv', { rest_A: 12e-6, send_s: 0.4, idle_s: 0 }],
    ['same.csv', { rest_A: 12e-6, send_s: 0.4, idle_s: 0, seed: 2 }],
    ['slow.csv', { rest_A: 12e-6, send_s: 0.6, idle_s: 0 }],
    ['awake.csv', { rest_A: 90e-6, send_s: 0.4, idle_s: 0 }],
    ['idle.csv', { rest_A: 12e-6, send_s: 0.4, idle_s: 1.5 }],
  ] as const) {
    const { seed = 1, ...own } = { seed: 1, ...build }
    const { current_A, interval_s } = makeUp(planOfBuild(own), seed, 0)
    const lines = Array.from(current_A, (x, k) => `${(k * interval_s).toFixed(3)},${x.toExponential(5)}`)
    writeFileSync(recording(name), `time (s),current (A)\n${lines.join('\n')}\n`)
  }
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const OUTPOST = `overwinter: 1
title: Gauge in a brook   # the second one
wake:
  steps:
    - name: sense         # both sensors
      for: 0.3 s
      draws: 5 mA ± 20 %
    - name: send
      draws: { is: 32 mA ± 20 %, source: data sheet }
      for: 0.3 s [0.2 s, 0.6 s]
      reports: 1
cadence: { rest: 10 min }
rest: 15 µA ± 5 µA   # without the divider
standing: [{ name: divider, draws: 2 µA, from: cell }]
supply: { cell: LR6, regulator: none, brownout: 0.9 V }
place: Bergen
`

beforeEach(() => {
  file = join(folder, 'brook.outpost.yaml')
  writeFileSync(file, OUTPOST)
})

describe('overwinter adopt', () => {
  it('shows the difference, and writes nothing without a yes', () => {
    const { code, out, err } = overwinter('adopt', recording('good.csv'), file)
    expect(code).toBe(2)
    expect(out).toContain('-      draws: 5 mA ± 20 %\n+      draws: { is: ')
    expect(err).toContain('--yes')
    expect(readFileSync(file, 'utf8')).toBe(OUTPOST)
  })

  it('writes what was measured with its tolerance and source, and keeps comments and order', () => {
    expect(overwinter('adopt', recording('good.csv'), file, '--yes')).toMatchObject({ code: 0, err: '' })
    const text = readFileSync(file, 'utf8')
    expect(text.replace(/\{ is: .*? \}/g, '…')).toBe(
      OUTPOST.replace('0.3 s\n', '…\n')
        .replace('5 mA ± 20 %', '…')
        .replace('{ is: 32 mA ± 20 %, source: data sheet }', '…')
        .replace('0.3 s [0.2 s, 0.6 s]', '…')
        .replace('15 µA ± 5 µA', '…'),
    )
    const { wake, rest } = parse(text) as Record<string, never> & {
      wake: { steps: Record<string, { is: string; source: string }>[] }
      rest: { is: string; source: string }
    }
    const [sense, send] = wake.steps
    expect(Number.parseFloat(sense.for.is)).toBeCloseTo(300, 0) // ms
    expect(Number.parseFloat(send.for.is)).toBeCloseTo(400, 0)
    expect(Number.parseFloat(send.draws.is)).toBeCloseTo(40 - 0.002, 1) // mA
    expect(Number.parseFloat(rest.is)).toBeCloseTo(12 - 2, 1) // µA; the divider has a line of its own
    expect(rest.source).toBe('recording good.csv, state A')
    expect(overwinter('forecast', file, '--runs', '5', '--years', '1').code).toBeLessThan(2)
  })

  it('says that there is nothing to do when it is done', () => {
    overwinter('adopt', recording('good.csv'), file, '--yes')
    const { code, out } = overwinter('adopt', recording('good.csv'), file)
    expect({ code, out }).toEqual({ code: 0, out: `${file} says all of this already.\n` })
  })

  it('lists the options where it is not clear which state is which step, and takes them', () => {
    const twin = OUTPOST.replace(
      'name: sense         # both sensors\n      for: 0.3 s',
      'name: join\n      for: 0.4 s',
    )
      .replace('draws: 5 mA ± 20 %', 'draws: 40 mA\n      every: 2')
      .replace('reports: 1', 'every: 2\n      reports: 1')
    writeFileSync(file, twin)
    const { code, err } = overwinter('adopt', recording('good.csv'), file, '--yes')
    expect(code).toBe(2)
    expect(err).toContain('--map "C = join"')
    expect(readFileSync(file, 'utf8')).toBe(twin)
    const told = overwinter(
      'adopt',
      recording('good.csv'),
      file,
      '--yes',
      '--map',
      'B=none',
      '--map',
      'state 3 = send',
    )
    expect(told).toMatchObject({ code: 0, err: '' })
    expect(overwinter('adopt', recording('good.csv'), file, '--map', 'Z = send').err).toContain(
      'it has A, B, C',
    )
    expect(overwinter('adopt', recording('good.csv'), file, '--map', 'B = sand').err).toContain(
      'no step "sand"',
    )
  })

  it('carries a reading of zero on a coarse range as an upper limit', () => {
    const meter = join(folder, 'meter.yaml')
    writeFileSync(
      meter,
      'instrument: hand multimeter\nranges:\n  - { up to: 1 A, digit: 1 mA, accuracy: 1 % + 2 digits }\n',
    )
    const lines = readFileSync(recording('good.csv'), 'utf8')
      .split('\n')
      .map((line, k) => (k === 0 || line === '' ? line : line.replace(/[^,]+$/, (x) => Number(x).toFixed(3))))
    writeFileSync(recording('coarse.csv'), lines.join('\n'))
    expect(
      overwinter(
        'adopt',
        recording('coarse.csv'),
        file,
        '--yes',
        '--instrument',
        meter,
        '--map',
        'B = sense',
        '--map',
        'C = send',
      ),
    ).toMatchObject({ code: 0, err: '' })
    // Half a digit, less the 2 µA that the divider takes of it.
    expect(readFileSync(file, 'utf8')).toContain(
      'rest: { is: < 498 µA, source: "recording coarse.csv, state A" }',
    )
  })

  it('tells what changes as JSON', () => {
    const { out } = overwinter('adopt', recording('good.csv'), file, '--yes', '--json')
    expect(JSON.parse(out)).toMatchObject({ written: true, numbers: expect.any(Array), notes: [] })
  })
})

describe.skipIf(!hasTerminals)('overwinter adopt on a terminal', () => {
  it('asks which state is which step, and before it writes', async () => {
    writeFileSync(file, OUTPOST.replace('draws: 5 mA ± 20 %', 'draws: 5 µA'))
    const session = onTerminal(folder, 'adopt', recording('good.csv'), file)
    await session.until(
      /State B draws (4\.99|5\.00).* mA for 300 ms\. Which step is it\?[\s\S]*Number or name: /,
    )
    session.type('1\n')
    await session.until(/State C [\s\S]*Number or name: /)
    session.type('send\n')
    await session.until(/\(y\/n\) /)
    session.type('y\n')
    expect(await session.done).toBe(0)
    expect(readFileSync(file, 'utf8')).toContain('source: "recording good.csv, state B"')
  })

  it('writes nothing upon a no', async () => {
    const session = onTerminal(folder, 'adopt', recording('good.csv'), file)
    await session.until(/\(y\/n\) /)
    session.type('n\n')
    expect(await session.done).toBe(0)
    expect(readFileSync(file, 'utf8')).toBe(OUTPOST)
  })

  it('writes nothing where the file changed while it asked', async () => {
    const session = onTerminal(folder, 'adopt', recording('good.csv'), file)
    await session.until(/\(y\/n\) /)
    writeFileSync(file, `${OUTPOST}# edited meanwhile\n`)
    session.type('y\n')
    expect(await session.done).toBe(2)
    expect(session.shown()).toContain('has changed since it was read')
    expect(readFileSync(file, 'utf8')).toBe(`${OUTPOST}# edited meanwhile\n`)
  })
})

describe('overwinter check', () => {
  const check = (name: string, ...args: string[]) => {
    const { code, out } = overwinter('check', recording(name), file, ...args, '--json')
    const report = JSON.parse(out) as CheckReport
    return {
      code,
      report,
      failed: report.items.filter(({ verdict }) => verdict === 'fail').map(({ name, kind }) => name || kind),
    }
  }
  beforeEach(() => {
    overwinter('adopt', recording('good.csv'), file, '--yes')
  })

  it('passes the same build once more, with a little slack', () => {
    expect(check('same.csv', '--slack', '3 %')).toMatchObject({
      code: 0,
      failed: [],
      report: { verdict: 'pass' },
    })
  })

  it('cannot tell where the budget is what was measured, without tolerance: 0, and with --strict 1', () => {
    writeFileSync(file, OUTPOST.replace('32 mA ± 20 %', '40 mA').replace('0.3 s [0.2 s, 0.6 s]', '0.4 s'))
    const { code, report } = check('good.csv')
    expect(code).toBe(0)
    expect(report.items.find(({ name }) => name === 'send')?.verdict).toBe('cannot tell')
    expect(check('good.csv', '--strict').code).toBe(1)
  })

  it.each([
    ['slow.csv', ['send', 'whole cycle']],
    ['awake.csv', ['rest']],
    ['idle.csv', ['state', 'whole cycle']],
  ])('fails %s in %j', (name, failed) => {
    expect(check(name, '--slack', '3 %')).toMatchObject({ code: 1, failed })
  })

  it('judges the cadence when asked', () => {
    expect(check('same.csv', '--slack', '3 %', '--cadence').failed).toEqual(['time between wakes'])
  })

  it('writes JUnit, and stays within 80 columns', () => {
    const junit = join(folder, 'current.xml')
    const { out } = overwinter('check', recording('slow.csv'), file, '--junit', junit)
    expect(readFileSync(junit, 'utf8')).toMatch(/<testcase [^>]*name="send \(state C\)"[^>]*>\s*<failure/)
    expect(Math.max(...out.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80)
  })

  it('leaves with 2 and one line where the recording or the file is not there', () => {
    expect(overwinter('check', recording('nowhere.csv'), file)).toMatchObject({ code: 2 })
    expect(overwinter('check', recording('good.csv'), 'nowhere.yaml').err).toBe(
      'nowhere.yaml cannot be read: there is no such file.\n',
    )
  })
})

it('docs/ci-gate.md names no option that is not there', () => {
  const guide = readFileSync('docs/ci-gate.md', 'utf8')
  const help = ['adopt', 'check', 'record'].map((command) => overwinter(command, '--help').out).join('')
  for (const [option] of guide.matchAll(/--[a-z]+/g)) expect(help).toContain(`${option} `)
})
