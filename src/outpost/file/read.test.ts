import { describe, expect, test } from 'vitest'
import { best } from '../../quantity/spread.ts'
import { pathText } from './diagnostic.ts'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'

function reading(text: string, weather?: (path: string) => Uint8Array | null) {
  const result = readOutpost(text, weather ? { weather } : {})
  if (!result.ok) throw new Error(result.diagnostics.map(({ message }) => message).join('; '))
  return result
}

describe('readOutpost compiles', () => {
  const { outpost, weatherYear, assumptions } = reading(SOLAR)

  test('numbers in SI, with their spread', () => {
    const [sense, send] = outpost.wake.steps
    expect(sense.duration_s).toEqual({ kind: 'exact', value: 1 })
    expect(best(sense.current_A)).toBeCloseTo(0.008, 12)
    expect(send.peak && [best(send.peak.current_A), best(send.peak.duration_s)]).toEqual([0.09, 0.01])
    expect(send.retries).toMatchObject({ times: 2 })
    expect(outpost.wake.cadence).toMatchObject({ schedule: { kind: 'rate' }, events: null, thrift: [] })
    expect(outpost.wake.keeps).toEqual([
      { name: 'counter', bytes: 16, memory: 'flash', endurance: 10000, pageBytes: 4096, pages: 8 },
    ])
    expect(best(outpost.supply.pack.capacity_C)).toBeCloseTo(7200, 9)
    expect(outpost.supply.charger).toMatchObject({ kind: 'linear' })
    expect(outpost.place).toMatchObject({ latitude_deg: 58.3, longitude_deg: 6.6, zone_h: 1 })
    expect(outpost.place.horizon).toEqual([
      { azimuth_deg: 90, elevation_deg: 5 },
      { azimuth_deg: 180, elevation_deg: 9 },
    ])
    expect(outpost.aims).toEqual({ winters: 0.95, reportsPerDay: 100, noBrownout: false, years: 5 })
    expect(weatherYear).toBeNull()
  })

  test('defaults, each listed with its source', () => {
    const listed = assumptions.map(({ path }) => pathText(path))
    expect(listed).toEqual(
      expect.arrayContaining([
        'supply.cell.charged',
        'supply.cell.age',
        'place.albedo',
        'supply.panel.cells',
      ]),
    )
    expect(listed).not.toContain('place.tilt')
    expect(assumptions.every(({ text, source }) => text !== '' && source !== '')).toBe(true)
  })

  test('the sources that numbers name', () => {
    const text = SOLAR.replace('draws: 40 mA', 'draws: { is: 40 mA ± 2 mA, source: bench log 3 }')
    const { sources } = reading(text)
    expect(sources).toEqual([{ path: ['wake', 'steps', 1, 'draws'], source: 'bench log 3' }])
  })

  test('the last step delivers a report where none is said to', () => {
    const { outpost } = reading(SOLAR.replace('      reports: 1\n', ''))
    expect(outpost.wake.steps.map(({ reports }) => reports)).toEqual([0, 1])
  })

  test('the full voltage of a charger, which the file states for the pack, for one cell', () => {
    const { outpost } = reading(
      SOLAR.replace('capacity: 2000 mAh }', 'capacity: 2000 mAh, series: 2 }')
        .replace('full: 4.2 V', 'full: 8.4 V')
        .replace('open circuit: 7 V', 'open circuit: 14 V')
        .replace('5.8 V at', '11 V at')
        .replace('highest input: 12 V', 'highest input: 20 V')
        .replace('rating: 6.3 V', 'rating: 10 V'),
    )
    expect(outpost.supply.charger && best(outpost.supply.charger.full_V)).toBeCloseTo(4.2, 12)
  })

  test('a lock-out into the charge window of the cell', () => {
    const at = (lockOut: string) =>
      reading(SOLAR.replace('cold lock-out: 0 °C', `cold lock-out: ${lockOut}`)).outpost.supply.pack.cell
        .charging
    expect(at('3 °C')?.low_C).toBe(3)
    expect(at('none')?.low_C).toBeLessThan(-50)
  })

  test('1.1 h as 66 whole minutes of a clock', () => {
    const thrift = '  clock minutes: 10\n  thrift: [{ below: 3.5 V, interval: 1.1 h }]'
    const { outpost, warnings } = reading(SOLAR.replace('  rate: 10 min', thrift))
    expect(outpost.wake.cadence.thrift[0].interval_s).toBe(3960)
    expect(warnings).toEqual([])
  })

  test('one cell type or place as plain text', () => {
    const plain = SOLAR.replace(/place:\n( {2}.*\n)+( {4}.*\n)+/, 'place: Oslo\n')
    expect(reading(plain).outpost.place.latitude_deg).toBeCloseTo(59.91, 2)
  })
})

describe('readOutpost refuses', () => {
  test.each([
    ['', 'empty-file'],
    ['# only a comment\n', 'empty-file'],
    ['- a list\n', 'not-a-mapping'],
    ['just words\n', 'not-a-mapping'],
  ])('%j: %s', (text, code) => {
    const result = readOutpost(text)
    expect(result.ok ? [] : result.diagnostics.map((each) => each.code)).toEqual([code])
  })

  test.each([
    ['Latin-1', Buffer.from(SOLAR, 'latin1')],
    ['UTF-16', Buffer.from(`\uFEFF${SOLAR}`, 'utf16le')],
  ])('a file in %s, and says how to save it', (_, bytes) => {
    const result = readOutpost(new TextDecoder().decode(bytes))
    expect(result.ok ? [] : result.diagnostics.map((each) => each.code)).toEqual(['not-utf-8'])
    expect(!result.ok && result.diagnostics[0].cure).toMatch(/UTF-8/)
  })

  test('with all that is wrong in all sections at once, in the order of the file', () => {
    const result = readOutpost(
      SOLAR.replace('draws: 8 mA', 'draws: 8 mAh')
        .replace('rate: 10 min', 'rate: 10')
        .replace('type: Li-ion', 'type: Li-iron')
        .replace('latitude: 58.3', 'latitude: 158.3')
        .replace('aims:', 'aim:'),
    )
    const found = result.ok ? [] : result.diagnostics.map(({ code }) => code)
    expect(found).toEqual([
      'unit-wrong-dimension',
      'unit-missing',
      'unknown-cell',
      'out-of-range',
      'unknown-key',
    ])
  })

  test('a misspelt key once, not as missing besides', () => {
    const result = readOutpost(SOLAR.replace('draws: 8 mA', 'drws: 8 mA'))
    expect(result.ok ? [] : result.diagnostics).toMatchObject([
      { code: 'unknown-key', text: 'drws', cure: 'did you mean "draws"?' },
    ])
  })
})

describe('variants', () => {
  const PATCHED = `${SOLAR}variants:
  batch of six:
    wake: { steps: { send: { every: 6, reports: 6 } } }
    aims: { reports per day: 90 }
  no panel:
    supply: { panel: null, charger: null }
`

  test('are designs of their own, and leave the file as it is', () => {
    const { outpost, variants } = reading(PATCHED)
    expect(variants.map(({ name }) => name)).toEqual(['batch of six', 'no panel'])
    expect(variants[0].outpost.wake.steps.map(({ every }) => every)).toEqual([1, 6])
    expect(variants[0].outpost.aims.reportsPerDay).toBe(90)
    expect(variants[1].outpost.supply.panel).toBeNull()
    expect(outpost.wake.steps[1].every).toBe(1)
  })

  test('say what is wrong where the patch says it, and nothing that is wrong with the file twice', () => {
    const result = readOutpost(PATCHED.replace('every: 6', 'every: six').replace('rest: 20 µA', 'rest: 20'))
    const found = result.ok ? [] : result.diagnostics.map(({ code, variant }) => [code, variant])
    expect(found).toEqual([
      ['unit-missing', null],
      ['wrong-type', 'batch of six'],
    ])
  })
})

describe('weather from a file', () => {
  const text = SOLAR.replace(
    / {4}sunshine: .*\n {4}temperature: .*\n {4}daily range: .*\n/,
    '    file: year.csv\n',
  )
  /** A year with light in proportion to the height of a sun that rises at six: not real, but possible. */
  const csv = () => {
    const lines = ['time,ghi,temperature']
    for (let hour = 0; hour < 8760; hour++) {
      const day = Math.floor(hour / 24)
      const season = 1 - Math.cos((2 * Math.PI * (day + 10)) / 365)
      const noon = Math.max(0, Math.cos(((2 * Math.PI) / 24) * ((hour % 24) - 12)) - 0.55 + 0.3 * season)
      const time = new Date(Date.UTC(2025, 0, 1, hour)).toISOString().slice(0, 16)
      lines.push(`${time},${Math.round(250 * noon * season)},${Math.round(4 + 6 * season)}`)
    }
    return new TextEncoder().encode(lines.join('\n'))
  }

  test('is asked for by the name in the file, kept as a year, and gives the climate', () => {
    const asked: string[] = []
    const { weatherYear, outpost } = reading(text, (path) => {
      asked.push(path)
      return csv()
    })
    expect(asked).toEqual(['year.csv'])
    expect(weatherYear?.global_W_m2).toHaveLength(8760)
    expect(weatherYear?.latitude_deg).toBe(58.3)
    expect(outpost.place.climate.temperature_C[6]).toBeGreaterThan(outpost.place.climate.temperature_C[0])
  })

  test('is refused with its line when it is damaged', () => {
    const bytes = new TextEncoder().encode(new TextDecoder().decode(csv()).replace(/,\d+\n/, ',warm\n'))
    const result = readOutpost(text, { weather: () => bytes })
    const [first] = result.ok ? [] : result.diagnostics
    expect(first).toMatchObject({ code: 'weather-number', path: ['place', 'weather', 'file'] })
    expect(first.message).toContain('line 2')
  })
})

test('the document keeps comments and order for those who edit it', () => {
  const { document } = reading(`# above\n${SOLAR.replace('rest: 20 µA', 'rest: 20 µA # beside')}`)
  document.yaml.setIn(['wake', 'steps', 0, 'for'], '2 s')
  const text = String(document.yaml)
  expect(text).toContain('# above')
  expect(text).toContain('# beside')
  expect(best(reading(text).outpost.wake.steps[0].duration_s)).toBe(2)
})
