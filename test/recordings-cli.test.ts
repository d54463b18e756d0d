import { spawn } from 'node:child_process'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import { parquetReadObjects } from 'hyparquet'
import { asyncBufferFromFile } from 'hyparquet/src/node.js'
import { afterAll, describe, expect, it } from 'vitest'
import { BUILDS, demoRecording } from './demo-recordings.ts'
import { AFTER, BEFORE, DEMOS, HAND, widest, workIn } from './recordings.ts'
import { MAIN, overwinterIn } from './run-cli.ts'

const { folder, run, reading, file, remove } = workIn('read')
afterAll(remove)

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
    const inside = reading(AFTER)
      .cycles.list.map(({ start_s }) => start_s)
      .filter((at) => at > 60 && at < 100)
    expect(part.cycles.list.map(({ start_s }) => start_s + part.span.from_s)).toEqual(
      inside.map((at) => expect.closeTo(at, 2)),
    )
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

  it('asks whether the leads are swapped where charge flows back', () => {
    const rows = Array.from({ length: 900 }, (_, i) => `${i / 100},${i % 300 < 60 ? -0.03 : -0.000_2}`)
    const { verdict, states } = reading(file('swapped.csv', `time (s),current (A)\n${rows.join('\n')}\n`))
    expect(verdict).toContain('are the leads swapped?')
    expect(states.map(({ mean_A }) => mean_A)).toEqual([expect.closeTo(-0.03, 6), expect.closeTo(-0.0002, 6)])
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
      [[BEFORE, '--range', '2 s=mA'], /is one of an instrument/],
      [[BEFORE, '--instrument', HAND, '--range', '2 s=kA'], /the ranges are µA, mA, A/],
      [[BEFORE, '--voltage', '3.3 mAh'], /--voltage/],
      [
        [file('two.csv', 'time (s),current (A)\n0,1\n1,2\n')],
        /too short to find states in: it has 2 samples/,
      ],
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

describe('where recordings are kept', () => {
  it('is named when it cannot be written', () => {
    const place = mkdtempSync(join(folder, 'taken-'))
    writeFileSync(join(place, '.overwinter'), 'a file, not a folder')
    const { code, err } = overwinterIn(place, 'read', BEFORE)
    expect(code).toBe(2)
    expect(err).toMatch(
      /^Recordings are kept in \.overwinter.recordings of this folder, and it cannot be written/,
    )
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
