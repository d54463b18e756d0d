/** Every decision under a weather file: as if the outpost stood where the file is from. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { epwFile, madeUpHours, SITE } from './made-up-weather.ts'
import { overwinter } from './run-cli.ts'

const HUT = 'examples/fjord-tide-hut.outpost.yaml'

let folder: string
let weather: string
/** The hut moved by hand: the place of the weather file, and the file for its weather. */
let moved: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'under-weather-'))
  weather = join(folder, 'ness.epw')
  moved = join(folder, 'moved.outpost.yaml')
  writeFileSync(weather, epwFile(madeUpHours()).join('\n'))
  const text = readFileSync(HUT, 'utf8')
    .replace(/latitude: .*/, `latitude: ${SITE.latitude}`)
    .replace(/longitude: .*/, `longitude: ${SITE.longitude}`)
    .replace(/elevation: .*/, `elevation: ${SITE.elevation} m`)
    .replace(/ {2}weather:\n[\s\S]*?\n\n/, '  weather: { file: ness.epw }\n\n')
  writeFileSync(moved, text)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const WORKS: readonly (readonly string[])[] = [
  ['size', '--runs', '17', '--years', '1', '--survive', '80 %'],
  ['compare', '--runs', '20', '--years', '1'],
  ['matters', '--rows', '8'],
  [
    'thrift',
    '--runs',
    '24',
    '--intervals',
    '15 min, 1 h',
    '--rows',
    '1',
    '--survive',
    '80 %',
    '--resolution',
    '50 mV',
  ],
]

describe.each(WORKS)('%s --weather', (command, ...options) => {
  it('comes to what the outpost does when it is moved there', () => {
    const under = overwinter(command, HUT, ...options, '--weather', weather, '--json')
    const there = overwinter(command, moved, ...options, '--json')
    expect(under.err).toBe('')
    const told = ({ file: _, weather: words, ...rest }: Record<string, unknown>) => ({ words, rest })
    const [one, other] = [under, there].map(({ out }) => told(JSON.parse(out)))
    expect(one.words).toContain('Made-up Ness, XXX, in whose place the outpost is taken to stand')
    expect(other.words).toMatch(/Made-up Ness, XXX$/)
    expect(one.rest).toEqual(other.rest)
    const own = told(JSON.parse(overwinter(command, HUT, ...options, '--json').out))
    expect(own.words).toBe('drawn from the climate of the place')
    expect(own.rest).not.toEqual(one.rest)
  })

  it('refuses a damaged file with its line and cure', () => {
    const path = join(folder, 'damaged.csv')
    writeFileSync(path, 'time,ghi,temperature\n2023-01-01T00:00,0,cold\n')
    const { code, err } = overwinter(command, HUT, ...options, '--weather', path)
    expect(code).toBe(2)
    expect(err).toContain('damaged.csv')
    expect(err).toContain('cure:')
  })
})

it('compare refuses a weather file beside two recordings', () => {
  const { code, err } = overwinter('compare', 'one.csv', 'two.csv', '--weather', weather)
  expect(code).toBe(2)
  expect(err).toContain('--weather goes with the variants of one outpost file')
})
