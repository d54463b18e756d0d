/** The sun by day of the year against worked examples and tables of two handbooks; see truth/sun/README.md. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { RAD_PER_DEG } from '../../src/sky/angle.ts'
import { incidenceCosine, incidenceCosineAt } from '../../src/sky/incidence.ts'
import { cosZenith, dayLength_h, solarAzimuth_deg, sunsetHourAngle_deg } from '../../src/sky/sun-angles.ts'
import { declination_deg, equationOfTime_min } from '../../src/sky/sun-day.ts'

interface Row {
  readonly id: string
  readonly inputs: {
    readonly lat: number
    readonly n: number
    readonly hour_angle: number
    readonly slope: number
    readonly surface_azimuth: number
    readonly lon_w: number
    readonly meridian_w: number
  }
  readonly expected: number
  /** Absolute, half a unit of the last printed digit and the book's own rounding of intermediate values. */
  readonly tolerance: number
}
interface Table {
  readonly id: string
  readonly inputs: { readonly lat_deg: number }
  /** January to December. */
  readonly expected: readonly number[]
  readonly tolerance: number
}
const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../truth/sun/${name}.json`, import.meta.url), 'utf8'))

describe('Duffie & Beckman, examples 1.5.1 to 1.6.3, 1.10.1, 2.13.1', () => {
  /** The book counts azimuth from south, west positive, and uses Cooper's declination. */
  const declination = (row: Row) => declination_deg(row.inputs.n, 'Cooper')
  const cosineUp = ({ inputs }: Row, delta: number) => cosZenith(inputs.lat, delta, inputs.hour_angle)
  const zenith_deg = (row: Row) => Math.acos(cosineUp(row, declination(row))) / RAD_PER_DEG
  const azimuth_deg = (row: Row) =>
    solarAzimuth_deg(row.inputs.lat, declination(row), row.inputs.hour_angle) - 180
  const incidence = (row: Row) => {
    const { lat, hour_angle, slope, surface_azimuth } = row.inputs
    return incidenceCosineAt(lat, declination(row), hour_angle, slope, 180 + surface_azimuth)
  }
  const computed: Record<string, (row: Row) => number> = {
    '1.5.1-E': ({ inputs }) => equationOfTime_min(inputs.n),
    '1.5.1-dt': ({ inputs }) => equationOfTime_min(inputs.n) + 4 * (inputs.meridian_w - inputs.lon_w),
    '1.6.1-delta': declination,
    '1.6.1-cos': incidence,
    '1.6.1-theta': (row) => Math.acos(incidence(row)) / RAD_PER_DEG,
    '1.6.2a-zenith': zenith_deg,
    '1.6.2a-azimuth': azimuth_deg,
    '1.6.2b-zenith': zenith_deg,
    '1.6.2b-azimuth': azimuth_deg,
    '1.6.3-delta': declination,
    '1.6.3-ws': (row) => sunsetHourAngle_deg(row.inputs.lat, declination(row)),
    '1.6.3-zenith': zenith_deg,
    '1.6.3-altitude': (row) => 90 - zenith_deg(row),
    '1.6.3-azimuth': azimuth_deg,
    '1.10.1-ws': (row) => sunsetHourAngle_deg(row.inputs.lat, declination(row)),
    '2.13.1-N': (row) => dayLength_h(row.inputs.lat, declination(row)),
  }
  const items: readonly Row[] = read('handbook')
  /** A profile angle and the choice of a mean day are not computed here; the declinations of those days follow. */
  const ELSEWHERE = ['1.6.3-profile', 'klein-days', 'klein-delta']

  it('leaves no row out', () => {
    expect([...Object.keys(computed), ...ELSEWHERE].sort()).toEqual(items.map((row) => row.id).sort())
  })
  it.each(items.filter((row) => row.id in computed).map((row) => [row.id, row] as const))('%s', (id, row) => {
    expect(Math.abs(computed[id](row) - row.expected)).toBeLessThanOrEqual(row.tolerance)
  })
  it('both ways to the incidence angle agree', () => {
    const row = items.find((item) => item.id === '1.6.1-cos') as Row
    const bySun = incidenceCosine(90 - zenith_deg(row), azimuth_deg(row) + 180, 45, 195)
    expect(bySun).toBeCloseTo(incidence(row), 12)
  })
  it('declinations of the mean days, Table 1.6.1 (Klein 1977)', () => {
    const table = read('handbook').find((row: Row) => row.id === 'klein-delta')
    table.inputs.n.forEach((day: number, month: number) => {
      expect(Math.abs(declination_deg(day, 'Cooper') - table.expected[month])).toBeLessThanOrEqual(0.051)
    })
  })
})

describe('FAO Irrigation and Drainage Paper 56', () => {
  const items = read('fao56')
  const MID_MONTH = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349]
  const EXAMPLE_8 = { latitude_deg: -20, day: 246 }

  it('Example 8: declination and sunset hour angle, in radians', () => {
    const expected = (id: string) => items.find((row: Row) => row.id === id)
    const delta = declination_deg(EXAMPLE_8.day, 'FAO-56')
    const sunset = sunsetHourAngle_deg(EXAMPLE_8.latitude_deg, delta) * RAD_PER_DEG
    expect(Math.abs(delta * RAD_PER_DEG - expected('ex8-delta').expected)).toBeLessThanOrEqual(0.0006)
    expect(Math.abs(sunset - expected('ex8-ws').expected)).toBeLessThanOrEqual(0.0006)
  })
  it('Examples 9 and 10: daylight hours', () => {
    for (const row of items.filter(({ id }: Row) => id === 'ex9-N' || id === 'ex10-N')) {
      const { lat_deg, J } = row.inputs
      const hours = dayLength_h(lat_deg, declination_deg(J, 'FAO-56'))
      expect(Math.abs(hours - row.expected)).toBeLessThanOrEqual(row.tolerance)
    }
  })
  const tables: readonly (readonly [string, Table])[] = items
    .filter(({ id }: Row) => id.startsWith('t27'))
    .map((row: Table) => [row.id, row])
  it('Table 2.7 has eleven rows here', () => expect(tables).toHaveLength(11))
  it.each(tables)('Table 2.7, daylight hours: %s', (_, row) => {
    row.expected.forEach((hours, month) => {
      const computed = dayLength_h(row.inputs.lat_deg, declination_deg(MID_MONTH[month], 'FAO-56'))
      expect(Math.abs(computed - hours)).toBeLessThanOrEqual(row.tolerance)
    })
  })
})
