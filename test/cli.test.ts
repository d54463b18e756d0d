import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Forecast } from '../src/report/forecast.ts'
import { interrupted, overwinter } from './run-cli.ts'

const HUT = 'examples/fjord-tide-hut.outpost.yaml'
let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-cli-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const quick = ['--runs', '40', '--years', '3']
const forecastOf = (...args: string[]) =>
  JSON.parse(overwinter('forecast', ...args, '--json').out) as Forecast

describe('every example', () => {
  const examples = readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml'))
  it('is there: six or more', () => expect(examples.length).toBeGreaterThanOrEqual(6))

  it.each(examples)('%s forecasts, and its accounts close', (name) => {
    const { code, out, err } = overwinter('forecast', join('examples', name), '--runs', '20', '--json')
    expect(err).toBe('')
    expect([0, 1]).toContain(code)
    const { outlook, cautions } = JSON.parse(out) as Forecast
    expect(outlook.imbalance).toBeLessThan(1e-9)
    expect(outlook.verdict).toMatch(/^(Alive|Lives|Still alive)/)
    expect(cautions.length).toBeGreaterThan(0)
    expect(out).not.toMatch(/NaN|Infinity/)
  })
})

describe('overwinter forecast', () => {
  it('says the same for any number of threads, and another thing for another seed', () => {
    const one = overwinter('forecast', HUT, ...quick, '--threads', '1', '--json').out
    const three = overwinter('forecast', HUT, ...quick, '--threads', '3', '--json').out
    expect(three).toBe(one)
    expect(overwinter('forecast', HUT, ...quick, '--seed', '2', '--json').out).not.toBe(one)
  })

  it('gives one verdict to terminal, JSON and report', () => {
    const report = join(folder, 'hut.html')
    const { verdict } = forecastOf(HUT, ...quick).outlook
    const { out } = overwinter('forecast', HUT, ...quick, '--html', report)
    expect(out.replace(/\s+/g, ' ')).toContain(verdict)
    expect(readFileSync(report, 'utf8')).toContain(verdict)
  })

  it('stays within 80 columns and without colour where it is not a terminal', () => {
    const { out } = overwinter('forecast', HUT, ...quick)
    expect(Math.max(...out.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(80)
    expect(out).not.toContain('\u001b')
  })

  it('leaves with 1 where an aim is not kept, and says which', () => {
    const path = join(folder, 'greedy.outpost.yaml')
    const text = readFileSync(HUT, 'utf8').replace('capacity: 600 mAh', 'capacity: 200 mAh')
    writeFileSync(path, text)
    const { code, out } = overwinter('forecast', path, ...quick)
    expect(code).toBe(1)
    expect(out).toMatch(/not kept +survive 95 % of winters/)
  })

  it('lists every problem of a bad file with its place, on standard error, and leaves with 2', () => {
    const path = join(folder, 'bad.outpost.yaml')
    const text = readFileSync(HUT, 'utf8')
      .replace('draws: 4.2 mA', 'draws: 4,2 mA')
      .replace('rate: 15 min', 'rate: 15 mAh')
    writeFileSync(path, text)
    const { code, out, err } = overwinter('forecast', path)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toMatch(/bad\.outpost\.yaml:\d+:\d+: error .*\[decimal-comma\]/)
    expect(err).toMatch(/bad\.outpost\.yaml:\d+:\d+: error .*\[unit-wrong-dimension\]/)
  })

  it('says in one line that a file is not there, or an option wrong', () => {
    const missing = overwinter('forecast', 'nowhere.outpost.yaml')
    expect(missing).toMatchObject({
      code: 2,
      err: 'nowhere.outpost.yaml cannot be read: there is no such file.\n',
    })
    const wrong = overwinter('forecast', HUT, '--runs', 'many')
    expect(wrong.code).toBe(2)
    expect(wrong.err).toContain('a whole number from 1')
    expect(overwinter('forecast', HUT, '--variant', 'three cells').err).toContain('"two cells"')
  })

  it('refuses a damaged weather file with its line', () => {
    const path = join(folder, 'damaged.csv')
    writeFileSync(path, 'time,ghi,temperature\n2023-01-01T00:00,0,cold\n')
    const { code, err } = overwinter('forecast', HUT, '--weather', path)
    expect(code).toBe(2)
    expect(err).toContain('damaged.csv')
    expect(err).toContain('cure:')
  })

  it('stops at once on Ctrl-C, with nothing half written', async () => {
    const report = join(folder, 'never.html')
    const { code, out, err } = await interrupted(1500, 'forecast', HUT, '--runs', '5000', '--html', report)
    expect(code).toBe(130)
    expect(out).toBe('')
    expect(err).toContain('Interrupted')
    expect(readdirSync(folder).filter((name) => name.startsWith('never'))).toEqual([])
  })

  it('writes each figure as an SVG of its own', () => {
    const figures = join(folder, 'figures')
    overwinter('forecast', HUT, ...quick, '--svg', figures)
    const names = readdirSync(figures)
    expect(names).toContain('fjord-tide-hut-year.svg')
    for (const name of names) expect(readFileSync(join(figures, name), 'utf8')).toMatch(/^<svg [^>]*xmlns=/)
  })

  it('takes steps of ten minutes, which change little', () => {
    const hourly = forecastOf(HUT, '--runs', '20', '--years', '2').outlook
    const fine = forecastOf(HUT, '--runs', '20', '--years', '2', '--steps', '6').outlook
    const january = (outlook: Forecast['outlook']) => outlook.byDay.find(({ at }) => at === 15)?.p50 ?? 0
    expect(Math.abs(january(fine) - january(hourly))).toBeLessThan(0.05)
  })

  it('plays a variant by its name', () => {
    const two = forecastOf(HUT, ...quick, '--variant', 'two cells')
    expect(two.capacity_C).toBeCloseTo(2 * forecastOf(HUT, ...quick).capacity_C, 6)
  })
})

describe('overwinter new', () => {
  const answers = [
    '--cell',
    'Li-ion 2000 mAh',
    '--every',
    '10 min',
    '--awake',
    '4 s',
    '--draws',
    '80 mA ± 10 %',
    '--rests',
    '20 µA',
  ]

  it('writes a commented file that forecasts at once, and never overwrites one', () => {
    const path = join(folder, 'gauge.outpost.yaml')
    expect(overwinter('new', path, ...answers)).toMatchObject({ code: 0, err: '' })
    expect(readFileSync(path, 'utf8')).toContain('#')
    expect(overwinter('forecast', path, '--runs', '20').out).toMatch(/^.*\n(Lives|Still alive)/)
    const again = overwinter('new', path, ...answers)
    expect(again.code).toBe(2)
    expect(again.err).toContain('exists already')
  })

  it('says which answer is wrong and how to mend it', () => {
    const { code, err } = overwinter('new', join(folder, 'x.yaml'), ...answers.slice(0, -1), '20 uAh')
    expect(code).toBe(2)
    expect(err).toContain('--rests')
    expect(existsSync(join(folder, 'x.yaml'))).toBe(false)
  })

  it('cures in the words of the command line', () => {
    const fresh = () => join(folder, 'sized.yaml')
    const [, , ...others] = answers
    const sizes = [
      ['Li-ion', 'Li-ion 2000 mAh'],
      ['2 x LiFePO4', '2 x LiFePO4 2000 mAh'],
      ['supercapacitor', 'supercapacitor 25 F'],
    ]
    for (const [cell, sized] of sizes) {
      expect(overwinter('new', fresh(), '--cell', cell, ...others).err).toContain(`--cell "${sized}"`)
      const path = join(folder, `${sized}.yaml`)
      expect(overwinter('new', path, '--cell', sized, ...others)).toMatchObject({ code: 0, err: '' })
    }
    const { err } = overwinter('new', fresh(), ...answers, '--title', '')
    expect(err).toContain('cure: write something, or leave the option out')
    expect(existsSync(fresh())).toBe(false)
  })

  it('says why it cannot write there', () => {
    const path = join(folder, 'none', 'x.yaml')
    expect(overwinter('new', path, ...answers)).toMatchObject({
      code: 2,
      err: `${path} cannot be written: there is no such folder.\n`,
    })
  })

  it('asks only on a terminal', () => {
    const { code, err } = overwinter('new', join(folder, 'y.yaml'), '--cell', 'LR6')
    expect(code).toBe(2)
    expect(err).toContain('--every, --awake, --draws, --rests')
  })
})

describe('overwinter', () => {
  it('shows help with an example for each command', () => {
    expect(overwinter('--help').out).toContain('forecast')
    for (const command of ['forecast', 'new']) expect(overwinter(command, '--help').out).toContain('Example:')
  })
  it('names an unknown command as such', () => {
    expect(overwinter('forcast', HUT)).toMatchObject({ code: 2 })
  })
})
