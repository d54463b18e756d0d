import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  csvFile,
  epwFile,
  epwHead,
  epwLine,
  isoStart,
  madeUpHours,
  SITE,
  tmy3File,
} from '../../test/made-up-weather.ts'
import type { WeatherYear } from './place.ts'
import { readWeather } from './weather-read.ts'
import type { WeatherHints, WeatherProblem } from './weather-result.ts'

const HOURS = madeUpHours()
const HINTS: WeatherHints = { latitude_deg: SITE.latitude, longitude_deg: SITE.longitude, zone_h: SITE.zone }

function sound(
  lines: readonly string[],
  hints: WeatherHints = {},
): { year: WeatherYear; notes: readonly string[] } {
  const result = readWeather(lines.join('\n'), hints)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  return result
}

function damaged(lines: readonly string[], hints: WeatherHints = {}): readonly WeatherProblem[] {
  const result = readWeather(lines.join('\n'), hints)
  if (result.ok) throw new Error('this file should have been refused')
  return result.problems
}

const with_ = (lines: readonly string[], line: number, change: (text: string) => string): string[] =>
  lines.map((text, i) => (i === line - 1 ? change(text) : text))

describe.each([
  ['EPW', epwFile(HOURS), {}],
  ['TMY3', tmy3File(HOURS), {}],
  ['CSV', csvFile(HOURS), HINTS],
] as const)('a sound %s file', (_, lines, hints) => {
  it('gives each hour its value, the first hour of January first', () => {
    const { year } = sound(lines, hints)
    expect([year.latitude_deg, year.longitude_deg, year.zone_h]).toEqual([58.5, 15.25, 1])
    expect([...year.global_W_m2]).toEqual(HOURS.map((h) => h.ghi))
    expect([...year.temperature_C]).toEqual(HOURS.map((h) => h.temperature))
  })
  it('reads the same from bytes with carriage returns and a byte-order mark', () => {
    const result = readWeather(new TextEncoder().encode(`\ufeff${lines.join('\r\n')}\r\n`), hints)
    expect(result.ok && result.year.global_W_m2).toEqual(sound(lines, hints).year.global_W_m2)
  })
  it('is refused when its second half is missing, naming the gap', () => {
    const problems = damaged(lines.slice(0, 4400), hints)
    expect(problems[0]).toMatchObject({ code: 'weather.gap', line: 4400 })
    expect(problems[0].message).toMatch(/missing for 4\d{3} hours/)
  })
  it('is refused when an hour comes twice, naming both lines', () => {
    const [problem] = damaged([...lines, lines[lines.length - 1]], hints)
    expect(problem).toMatchObject({ code: 'weather.duplicate', line: lines.length + 1 })
    expect(problem.message).toContain(`line ${lines.length}`)
  })
  it('bridges up to six missing hours and says so', () => {
    const at = lines.length - 8760 + 4000
    const { year, notes } = sound([...lines.slice(0, at), ...lines.slice(at + 6)], hints)
    const [before, after] = [HOURS[3999].temperature, HOURS[4006].temperature]
    expect(year.temperature_C[4000]).toBeCloseTo(before + (after - before) / 7, 9)
    expect(notes.join()).toMatch(/air temperature: 6 missing hours/)
    expect(damaged([...lines.slice(0, at), ...lines.slice(at + 7)], hints)[0].code).toBe('weather.gap')
  })
})

describe('missing-value codes', () => {
  const hour = 5000
  it('EPW: 9999 and 99.9', () => {
    const lines = with_(epwFile(HOURS), 9 + hour, () =>
      epwLine({ ...HOURS[hour], ghi: 9999, dni: 9999, dhi: 9999, temperature: 99.9 }),
    )
    const { year, notes } = sound(lines)
    expect(notes).toHaveLength(4)
    expect(year.global_W_m2[hour]).toBeCloseTo((HOURS[hour - 1].ghi + HOURS[hour + 1].ghi) / 2, 9)
    expect(year.temperature_C[hour]).toBeCloseTo(
      (HOURS[hour - 1].temperature + HOURS[hour + 1].temperature) / 2,
      9,
    )
  })
  it('TMY3: -9900', () => {
    const hours = HOURS.map((h, i) => (i === hour ? { ...h, temperature: -9900 } : h))
    expect(sound(tmy3File(hours)).notes).toEqual([expect.stringMatching(/air temperature: 1 missing/)])
  })
  it('CSV: an empty field, nan, or -999', () => {
    for (const mark of ['', 'NaN', '-999'])
      expect(
        sound(
          with_(csvFile(HOURS), 3 + hour, (text) => text.replace(/,[^,]*$/, `,${mark}`)),
          HINTS,
        ).notes.join(),
      ).toMatch(/air temperature: 1 missing/)
  })
})

describe('beam and diffuse light', () => {
  it('come from the file where it has them', () => {
    const { year } = sound(epwFile(HOURS))
    expect(year.beamNormal_W_m2[4140]).toBe(HOURS[4140].dni)
    expect(year.diffuse_W_m2[4140]).toBe(HOURS[4140].dhi)
  })
  it('come from Erbs where it has neither: clearness 0.5 is 0.659 diffuse (Duffie & Beckman 2.10.1)', () => {
    const { year, notes } = sound(csvFile(HOURS), HINTS)
    expect(year.diffuse_W_m2[4140] / year.global_W_m2[4140]).toBeCloseTo(0.6592, 3)
    expect(notes.join()).toMatch(/Erbs/)
  })
  it('close the balance where it has one of them', () => {
    const hours = HOURS.map((h) => ({ ...h, dni: 9999 }))
    const { year } = sound(epwFile(hours))
    expect(year.beamNormal_W_m2[4140]).toBeCloseTo(HOURS[4140].dni, 0)
  })
})

describe('calendars and clocks', () => {
  it('29 February is dropped, with a note', () => {
    const leap = HOURS.slice(0, 24).map((h) => epwLine({ ...h, month: 2, day: 29 }, 2020))
    const { year, notes } = sound([...epwFile(HOURS), ...leap])
    expect(notes).toEqual([expect.stringMatching(/29 February dropped \(24 records\)/)])
    expect([...year.global_W_m2]).toEqual(HOURS.map((h) => h.ghi))
  })
  it('a zone of half an hour against UTC stamps mixes neighbouring hours', () => {
    const site = { latitude: 20, longitude: 80, zone: 5.5, elevation: 0 }
    const hours = madeUpHours({ ...site, zone: 0 })
    const { year } = sound(
      csvFile(hours, (h) => `${isoStart(h)}Z`),
      {
        latitude_deg: 20,
        longitude_deg: 80,
        zone_h: 5.5,
      },
    )
    // Local hour 12..13 is 06:30..07:30 UTC.
    expect(year.global_W_m2[12]).toBeCloseTo((hours[6].ghi + hours[7].ghi) / 2, 9)
  })
  it('stamps at the end of the hour are moved back when said so', () => {
    const end = (h: (typeof HOURS)[number]): string =>
      new Date(Date.parse(`${isoStart(h)}Z`) + 3_600_000).toISOString().slice(0, 16)
    const { year } = sound(csvFile(HOURS, end), { ...HINTS, stamp: 'end' })
    expect([...year.global_W_m2]).toEqual(HOURS.map((h) => h.ghi))
  })
  it('half-hour records are averaged', () => {
    const lines = csvFile(HOURS).flatMap((line, i) => (i < 2 ? [line] : [line, line.replace(':00,', ':30,')]))
    expect([...sound(lines, HINTS).year.global_W_m2]).toEqual(HOURS.map((h) => h.ghi))
  })
  it('southern years keep January first', () => {
    const site = { latitude: -34, longitude: 151, zone: 10, elevation: 20 }
    const { year } = sound(epwFile(madeUpHours(site), site))
    expect(year.global_W_m2[12]).toBeGreaterThan(1.8 * year.global_W_m2[4356])
  })
  it('a longitude with the wrong sign is found by the light itself', () => {
    const wrong = { ...SITE, longitude: -60, zone: 4 }
    const problems = damaged([...epwHead(wrong), ...epwFile(HOURS).slice(8)])
    expect(problems).toEqual([expect.objectContaining({ code: 'weather.clock', line: null })])
  })
})

describe('light that cannot be', () => {
  const scaled = (factor: number): string[] => csvFile(HOURS.map((h) => ({ ...h, ghi: h.ghi * factor })))
  it('kW/m² for W/m²', () => {
    const [problem] = damaged(scaled(0.001), HINTS)
    expect(problem.code).toBe('weather.light')
    expect(problem.message).toMatch(/0\.050 % of the light above the air/)
  })
  it('a summer brighter than a clear sky', () => {
    expect(damaged(scaled(1.7), HINTS)[0]).toMatchObject({ code: 'weather.light', line: 3 })
  })
  it('a year of darkness', () => {
    expect(damaged(scaled(0), HINTS)[0].code).toBe('weather.light')
  })
})

describe('damage', () => {
  const epw = epwFile(HOURS)
  it.each([
    ['an empty file', [''], 'weather.empty', null],
    ['prose', ['It was a dark and stormy night', 'and so on'], 'weather.format', 1],
    ['a line cut short', with_(epw, 100, (t) => t.slice(0, 40)), 'weather.fields', 100],
    [
      'a word for a number',
      with_(epw, 101, (t) => t.replace(/,101325,0,0,300,[^,]*/, ',101325,0,0,300,bright')),
      'weather.number',
      101,
    ],
    ['a thirteenth month', with_(epw, 102, (t) => t.replace(/^2021,1,/, '2021,13,')), 'weather.time', 102],
    ['an hour 25', with_(epw, 32, (t) => t.replace(/^2021,1,1,24,/, '2021,1,1,25,')), 'weather.time', 32],
    [
      'light brighter than the sun',
      with_(epw, 4145, (t) => t.replace(/,300,[^,]*/, ',300,5000')),
      'weather.range',
      4145,
    ],
    ['a site without latitude', with_(epw, 1, (t) => t.replace('58.5', 'north')), 'weather.site', 1],
    ['four records an hour', with_(epw, 8, (t) => t.replace('S,1,1', 'S,1,4')), 'weather.header', 8],
    ['no DATA PERIODS', epw.filter((t) => !t.startsWith('DATA')), 'weather.header', null],
    [
      'a TMY3 file without its GHI',
      with_(tmy3File(HOURS), 2, (t) => t.replace('GHI (W', 'G (W')),
      'weather.column',
      2,
    ],
    [
      'a TMY3 time of 00:00',
      with_(tmy3File(HOURS), 3, (t) => t.replace('01:00', '00:00')),
      'weather.time',
      3,
    ],
    [
      'a CSV without temperature',
      with_(csvFile(HOURS), 2, (t) => t.replace('temperature', 't')),
      'weather.column',
      2,
    ],
    ['a CSV with a date only', with_(csvFile(HOURS), 9, (t) => t.replace('T06:00', '')), 'weather.time', 9],
    [
      'a CSV with 30 February',
      with_(csvFile(HOURS), 9, (t) => t.replace('-01-01', '-02-30')),
      'weather.time',
      9,
    ],
    ['a CSV of every third hour', csvFile(HOURS.filter((h) => h.hour % 3 === 0)), 'weather.time', 4],
  ] as const)('%s', (_, lines, code, line) => {
    const [problem] = damaged(lines, HINTS)
    expect(problem).toMatchObject({ code, line })
    expect(problem.expected && problem.cure).not.toBe('')
  })
  it('a CSV without its site asks for latitude, longitude and zone', () => {
    expect(damaged(csvFile(HOURS)).map((p) => p.message)).toEqual([
      'the site has no latitude',
      'the site has no longitude',
      'the site has no zone',
    ])
  })
  it('on every line gives twenty problems, not thousands', () => {
    expect(damaged(epw.map((t, i) => (i < 8 ? t : `${t.slice(0, 20)}`)))).toHaveLength(20)
  })
})

describe('whatever the bytes', () => {
  const never = (bytes: Uint8Array | string): void => {
    const result = readWeather(bytes, HINTS)
    expect(result.ok || result.problems.length > 0).toBe(true)
  }
  it('random bytes never throw', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), never), { seed: 1, numRuns: 300 })
  })
  it('random lines under a real header never throw', () => {
    const heads = [epwHead(), tmy3File([]), csvFile([])]
    const line = fc.array(fc.oneof(fc.string(), fc.integer().map(String), fc.constant('2021-03-01T00:00')), {
      maxLength: 20,
    })
    fc.assert(
      fc.property(fc.constantFrom(...heads), fc.array(line, { maxLength: 8 }), (head, rows) =>
        never([...head, ...rows.map((row) => row.join(','))].join('\n')),
      ),
      { seed: 2, numRuns: 300 },
    )
  })
  it('a real file with one byte changed never throws', () => {
    const whole = new TextEncoder().encode(tmy3File(HOURS).slice(0, 60).join('\n'))
    fc.assert(
      fc.property(fc.nat({ max: whole.length - 1 }), fc.integer({ min: 0, max: 255 }), (at, byte) => {
        const bytes = whole.slice()
        bytes[at] = byte
        never(bytes)
      }),
      { seed: 3, numRuns: 200 },
    )
  })
})
