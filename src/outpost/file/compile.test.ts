/** What the file says, in the engine's terms: conversions, and the defaults that stand in for what it does not say. */
import { describe, expect, test } from 'vitest'
import { best } from '../../quantity/spread.ts'
import { climateFromIrradiation, climateFromSunshine } from '../../sky/climate-months.ts'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'

/** The compiled outpost of SOLAR with some of its text replaced. */
function compiled(...changes: readonly (readonly [from: string | RegExp, to: string])[]) {
  const text = changes.reduce((before, [from, to]) => before.replace(from, to), SOLAR)
  const result = readOutpost(text)
  if (!result.ok) throw new Error(result.diagnostics.map(({ message }) => message).join('; '))
  return result.outpost
}

const REGULATOR = /regulator: .*/
const CHARGER = /charger: .*/
const PANEL = /panel: .*/
const CAPACITOR = / {2}capacitor: .*\n/
const SUNSHINE = /sunshine: .*/

describe('cell', () => {
  test('a supercapacitor holds Q = C U at its full voltage', () => {
    const { pack } = compiled(
      ['type: Li-ion, capacity: 2000 mAh', 'type: supercapacitor, capacitance: 25 F ± 10 %, series: 2'],
      ['full: 4.2 V', 'full: 5.2 V'],
    ).supply
    expect(pack.capacity_C).toEqual({
      kind: 'normal',
      value: 25 * 2.7,
      u: expect.closeTo(25 * 2.7 * 0.05, 9),
    })
    expect(pack.series).toBe(2)
  })

  test('is put out full and new unless said otherwise', () => {
    expect(compiled().supply.pack).toMatchObject({ initial: { value: 1 }, age_s: { value: 0 } })
    const said = compiled(['capacity: 2000 mAh }', 'capacity: 2000 mAh, charged: 80 %, age: 1 h }']).supply
      .pack
    expect(said).toMatchObject({ initial: { value: 0.8 }, age_s: { value: 3600 } })
  })
})

describe('age', () => {
  const initialOf = (cell: string) => {
    const { initial } = compiled(
      ['cell: { type: Li-ion, capacity: 2000 mAh }', `cell: ${cell}`],
      [/ {2}charger: .*\n/, ''],
      [/ {2}panel: .*\n/, ''],
      ['output: 3.0 V', 'output: 2.8 V'],
      ['brownout: 2.6 V', 'brownout: 2.5 V'],
      [/ {2}restart above: .*\n/, ''],
    ).supply.pack
    return best(initial)
  }

  test('takes self-discharge from a primary cell: 2.5 % a year from LR6, e to the −0.25 after ten', () => {
    expect(initialOf('{ type: LR6, series: 3, age: 10 years }')).toBeCloseTo(Math.exp(-0.25), 3)
    expect(initialOf('{ type: LR6, series: 3 }')).toBe(1)
  })

  test('takes nothing where the charge is stated, nor from a cell that is charged before it is put out', () => {
    expect(initialOf('{ type: LR6, series: 3, age: 10 years, charged: 95 % }')).toBe(0.95)
    expect(initialOf('{ type: Li-ion, capacity: 2 Ah, age: 10 years }')).toBe(1)
  })

  test('is told among the assumptions', () => {
    const result = readOutpost(
      `${SOLAR.slice(0, SOLAR.indexOf('supply:'))}supply: { cell: { type: LR6, age: 4 years }, brownout: 0.9 V }\nplace: Bergen\n`,
    )
    const said = result.ok ? result.assumptions.find(({ path }) => path.at(-1) === 'charged') : undefined
    expect(said?.text).toMatch(/^90\.5 %: full when made, less its self-discharge/)
  })
})

describe('regulator and capacitor', () => {
  test('one efficiency holds at any current, a mapping is a curve over current', () => {
    const buck = 'kind: buck, output: 3 V, quiescent: 2 µA'
    const curveOf = (efficiency: string) => {
      const { regulator } = compiled([REGULATOR, `regulator: { ${buck}, efficiency: ${efficiency} }`]).supply
      return 'efficiency' in regulator ? regulator.efficiency : null
    }
    expect(curveOf('85 %')?.y).toEqual([0.85, 0.85])
    expect(curveOf('{ 100 mA: 90 %, 1 mA: 80 % }')).toEqual({ x: [0.001, 0.1], y: [0.8, 0.9] })
  })

  test.each([
    ['none', 'none', 2.6],
    ['linear', '{ kind: linear, output: 3 V, drop-out: 150 mV, quiescent: 2 µA }', 2.75],
    [
      'boost',
      '{ kind: boost, output: 5 V, drop-out: 0.2 V, minimum: 1.1 V, quiescent: 9 µA, efficiency: 85 % }',
      1.1,
    ],
  ])('behind %s it restarts as soon as the rail can be back', (_, regulator, restart_V) => {
    const { brownout } = compiled(
      [REGULATOR, `regulator: ${regulator}`],
      ['  restart above: 3.4 V\n', ''],
    ).supply
    expect(best(brownout.restart_V)).toBeCloseTo(restart_V, 12)
  })

  // Which law, and why: src/supply/capacitor-leakage.ts.
  test.each([
    ['an electrolytic capacitor', '{ capacitance: 220 µF }', 0.03 * 0.01 * 220e-6 * 4.2],
    ['a double-layer capacitor', '{ capacitance: 0.5 F, rating: 5.5 V }', 2 * 0.5 * 2e-6],
    ['what the file states', '{ capacitance: 220 µF, leakage: 7 µA }', 7e-6],
  ])('%s leaks what it does after days, not within minutes', (_, text, leakage_A) => {
    const { capacitor } = compiled([CAPACITOR, `  capacitor: ${text}\n`]).supply
    expect(capacitor && best(capacitor.leakage_A)).toBeCloseTo(leakage_A, 12)
  })

  test('the assumed leakage is told in the grammar of the file', () => {
    const result = readOutpost(SOLAR.replace(CAPACITOR, '  capacitor: { capacitance: 1 F, rating: 5.5 V }\n'))
    const said = result.ok ? result.assumptions.find(({ path }) => path.at(-1) === 'leakage') : undefined
    expect(said?.text).toMatch(/^4 µA \[2 µA, 8 µA\]: a double-layer capacitor after days/)
    expect(said?.source).toContain('from memory')
  })
})

describe('charger and panel', () => {
  test('a rated panel has a fill factor of about 0.76', () => {
    const { panel } = compiled([PANEL, 'panel: { rated: 0.6 W at 6 V }']).supply
    if (panel === null) throw new Error('no panel')
    expect(best(panel.maximumPower_V)).toBe(6)
    expect(best(panel.maximumPower_A)).toBeCloseTo(0.1, 12)
    expect(0.6 / (best(panel.openCircuit_V) * best(panel.shortCircuit_A))).toBeCloseTo(0.76, 2)
    expect(panel.cellsInSeries).toBe(12)
  })

  test('a charger without a limit gives what the cell may take', () => {
    const { charger, pack } = compiled([CHARGER, 'charger: { kind: linear, cold lock-out: 0 °C }']).supply
    if (charger?.kind !== 'linear') throw new Error('no linear charger')
    expect(best(charger.limit_A)).toBeCloseTo((pack.cell.charging?.rateLimit_per_h ?? 0) * 2, 12)
    expect(best(charger.full_V)).toBe(4.2)
  })
})

describe('cadence', () => {
  test('thrift rows keep 50 mV clear unless they say otherwise', () => {
    const { thrift } = compiled([
      '  rate: 10 min',
      '  rate: 10 min\n  thrift:\n    - { below: 3.6 V, interval: 30 min }\n    - { below: 3.5 V, interval: 2 h, hysteresis: 80 mV }',
    ]).wake.cadence
    expect(thrift.map(({ hysteresis_V }) => best(hysteresis_V))).toEqual([0.05, 0.08])
    expect(thrift.map(({ interval_s }) => interval_s)).toEqual([1800, 7200])
  })

  test('times of day are told in the zone of the place unless they name one', () => {
    const zoneOf = (times: string) => {
      const { schedule } = compiled(
        ['rate: 10 min', `times of day: ${times}`],
        [/reports per day: .*/, 'no brown-out: true'],
      ).wake.cadence
      return schedule?.kind === 'times-of-day' ? schedule : null
    }
    expect(zoneOf('{ at: ["6:05"] }')).toMatchObject({
      zone: 'Europe/Oslo',
      times: [{ hour: 6, minute: 5, second: 0 }],
    })
    expect(zoneOf('{ at: ["06:05"], zone: UTC+2 }')?.zone).toBe('+02:00')
  })
})

describe('place', () => {
  const temperatures = {
    temperature_C: [1, 1, 3, 6, 10, 13, 15, 15, 12, 9, 5, 2],
    dailyRange_K: [4, 5, 6, 7, 7, 7, 6, 6, 6, 5, 4, 4],
  }

  test('sunshine is in hours a day', () => {
    const hours = [1.0, 2.4, 3.9, 5.6, 7.2, 7.6, 7.0, 6.0, 4.1, 2.5, 1.3, 0.7]
    const expected = climateFromSunshine(58.3, hours, temperatures).clearness
    for (const [month, clearness] of compiled().place.climate.clearness.entries())
      expect(clearness).toBeCloseTo(expected[month], 12)
  })

  test.each([
    'irradiation: 0.2 0.7 1.9 3.6 5.1 5.5 5.1 4.0 2.3 1.0 0.3 0.1 kWh/m²/d',
    'irradiation: [0.2 kWh/m²/d, 0.7 kWh/m²/d, 1.9 kWh/m²/d, 3.6 kWh/m²/d, 5.1 kWh/m²/d, 5.5 kWh/m²/d, 5.1 kWh/m²/d, 4.0 kWh/m²/d, 2.3 kWh/m²/d, 1.0 kWh/m²/d, 0.3 kWh/m²/d, 0.1 kWh/m²/d]',
  ])('%s', (irradiation) => {
    const joules = [0.2, 0.7, 1.9, 3.6, 5.1, 5.5, 5.1, 4.0, 2.3, 1.0, 0.3, 0.1].map((kWh) => kWh * 3.6e6)
    const expected = climateFromIrradiation(58.3, joules, temperatures).clearness
    for (const [month, clearness] of compiled([SUNSHINE, irradiation]).place.climate.clearness.entries())
      expect(clearness).toBeCloseTo(expected[month], 12)
  })

  test('a panel looks towards the equator, 15° steeper than the latitude, unless mounted otherwise', () => {
    const free = (latitude: string) =>
      compiled(
        [/ {2}tilt: .*\n {2}azimuth: .*\n/, ''],
        ['latitude: 58.3', `latitude: ${latitude}`],
        [SUNSHINE, 'sunshine: 3 3 3 3 3 3 3 3 3 3 3 3 h'],
      ).place
    expect([best(free('40').tilt_deg), best(free('40').azimuth_deg)]).toEqual([55, 180])
    expect([best(free('-40').tilt_deg), best(free('-40').azimuth_deg)]).toEqual([55, 0])
  })

  test('standard time follows the longitude where no zone is named', () => {
    expect(compiled(['  zone: Europe/Oslo\n', ''], ['longitude: 6.6', 'longitude: 24']).place.zone_h).toBe(2)
  })
})
