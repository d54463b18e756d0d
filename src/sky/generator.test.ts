import { describe, expect, it } from 'vitest'
import { normalDensity } from '../numeric/normal.ts'
import { type Stream, stream } from '../numeric/random.ts'
import { DAYS, MONTH_OF_DAY, MONTH_STARTS, monthlyMeans } from './calendar.ts'
import { clearnessLaw } from './clearness-law.ts'
import { lagOneOfClearness, SCORE_CELLS, SCORE_LIMIT } from './clearness-score.ts'
import { dailyExtraterrestrial_J_m2 } from './extraterrestrial.ts'
import { prepareGenerator, WeatherPath } from './generator.ts'
import type { Climate } from './place.ts'

/** A dark northern coast, made up. */
const NORTH: Climate = {
  clearness: [0.32, 0.38, 0.44, 0.48, 0.5, 0.5, 0.5, 0.48, 0.44, 0.38, 0.31, 0.27],
  temperature_C: [-3, -3, 0, 5, 11, 15, 17, 16, 12, 7, 3, -1],
  dailyRange_K: [4, 5, 7, 8, 9, 9, 8, 8, 7, 5, 4, 4],
  floor: 0.05,
  persistence: 0.29,
  dailyDeviation_K: 3.5,
  temperaturePersistence: 0.7,
}
const LATITUDE = 58
const LAWS = ['bendt', 'hollands-huget'] as const

/** The same draws seen in a mirror: pairs of them lose most of the sampling error and keep the expectation. */
const mirrored = (source: Stream): Stream => ({
  uniform: () => 1 - source.uniform(),
  normal: () => -source.normal(),
})

interface Drawn {
  clearness: Float64Array
  meanTemperature_C: Float64Array
}

function drawYears(path: WeatherPath, years: number, streamOf: (year: number) => Stream): Drawn[] {
  return Array.from({ length: years }, (_, year) => {
    path.start(streamOf(year))
    const drawn = { clearness: new Float64Array(DAYS), meanTemperature_C: new Float64Array(DAYS) }
    for (let day = 0; day < DAYS; day++) {
      path.nextDay(day)
      drawn.clearness[day] = path.clearness
      drawn.meanTemperature_C[day] = path.meanTemperature_C
    }
    return drawn
  })
}

const independentYears = (climate: Climate, years: number, seed = 11): Drawn[] =>
  drawYears(new WeatherPath(prepareGenerator(climate)), years, (year) => stream(seed, year, 1))

function correlation(pairs: readonly (readonly [number, number])[]): number {
  const n = pairs.length
  const sum = (f: (x: number, y: number) => number): number => pairs.reduce((s, [x, y]) => s + f(x, y), 0) / n
  const mx = sum((x) => x)
  const my = sum((_, y) => y)
  const cross = sum((x, y) => (x - mx) * (y - my))
  return cross / Math.sqrt(sum((x) => (x - mx) ** 2) * sum((_, y) => (y - my) ** 2))
}

describe.each(LAWS)('monthly means under %s', (law) => {
  const generator = prepareGenerator(NORTH, law)
  it('are exact in expectation: quadrature of the tables over the normal law', () => {
    const h = (2 * SCORE_LIMIT) / SCORE_CELLS
    for (const [month, asked] of NORTH.clearness.entries()) {
      let mean = 0
      for (let i = 0; i <= SCORE_CELLS; i++)
        mean +=
          generator.clearnessByScore[month * (SCORE_CELLS + 1) + i] * normalDensity(-SCORE_LIMIT + i * h) * h
      expect(Math.abs(mean / asked - 1)).toBeLessThan(1e-4)
    }
  })
  it('of 300 years at 58° N lie within 1 % of what was asked, December too', () => {
    // 300 independent years scatter by 0.7 % (standard error), so the years are drawn in mirrored pairs.
    const years = drawYears(new WeatherPath(generator), 300, (year) => {
      const source = stream(5, year >> 1, 1)
      return year % 2 ? mirrored(source) : source
    })
    const light = new Float64Array(DAYS)
    const asked = new Float64Array(DAYS)
    for (let day = 0; day < DAYS; day++) {
      const above = dailyExtraterrestrial_J_m2(LATITUDE, day + 1)
      asked[day] = above * NORTH.clearness[MONTH_OF_DAY[day]]
      for (const year of years) light[day] += (above * year.clearness[day]) / years.length
    }
    const found = monthlyMeans(light)
    for (const [month, mean] of monthlyMeans(asked).entries())
      expect(Math.abs(found[month] / mean - 1), `month ${month + 1}`).toBeLessThan(0.01)
  })
})

describe('drawn clearness', () => {
  const years = independentYears(NORTH, 400)
  it.each([0, 5, 11])('of month %i follows the published law (Kolmogorov-Smirnov, 1 %)', (month) => {
    const law = clearnessLaw('bendt', NORTH.clearness[month], NORTH.floor)
    const sample: number[] = []
    // Every fifteenth day: 0.29^15 is nothing, so the sample is independent as the test wants it.
    for (const year of years)
      for (let day = MONTH_STARTS[month]; day < MONTH_STARTS[month + 1]; day += 15)
        sample.push(year.clearness[day])
    sample.sort((a, b) => a - b)
    const n = sample.length
    const distance = Math.max(...sample.map((k, i) => Math.max((i + 1) / n - law.cdf(k), law.cdf(k) - i / n)))
    expect(distance).toBeLessThan(1.63 / Math.sqrt(n))
  })
  it('has scores whose own lag-one gives clearness the one asked for, in each month', () => {
    const { clearnessByScore, scoreLagOne } = prepareGenerator(
      { ...NORTH, persistence: 0.6 },
      'hollands-huget',
    )
    for (let month = 0; month < 12; month++) {
      const row = clearnessByScore.subarray(month * (SCORE_CELLS + 1), (month + 1) * (SCORE_CELLS + 1))
      expect(lagOneOfClearness(row, scoreLagOne[month])).toBeCloseTo(0.6, 8)
    }
  })
  it.each([-0.2, 0, 0.29, 0.6])('hangs together as asked: lag-one %f', (persistence) => {
    const drawn = persistence === 0.29 ? years : independentYears({ ...NORTH, persistence }, 150)
    const pairs = drawn.flatMap(({ clearness }) =>
      Array.from({ length: 30 }, (_, day) => [clearness[day], clearness[day + 1]] as const),
    )
    const error = 1.3 / Math.sqrt(pairs.length)
    expect(Math.abs(correlation(pairs) - persistence)).toBeLessThan(3 * error)
  })
})

describe('drawn temperature', () => {
  const years = independentYears(NORTH, 300, 4)
  it('has the monthly means asked for', () => {
    const mean = new Float64Array(DAYS)
    for (const year of years)
      for (let day = 0; day < DAYS; day++) mean[day] += year.meanTemperature_C[day] / years.length
    // A month's mean of a year scatters by about 3.5 K · √(5.7/30) = 1.5 K, of 300 years by 0.09 K.
    for (const [month, found] of monthlyMeans(mean).entries())
      expect(Math.abs(found - NORTH.temperature_C[month])).toBeLessThan(0.3)
  })
  it('deviates as much, and for as long, as asked', () => {
    const cycle = prepareGenerator(NORTH).temperature_C
    const deviations = years.map(({ meanTemperature_C }) => meanTemperature_C.map((t, day) => t - cycle[day]))
    const square = deviations.reduce((s, d) => s + d.reduce((sum, x) => sum + x * x, 0), 0) / (300 * DAYS)
    expect(Math.sqrt(square)).toBeCloseTo(3.5, 1)
    const pairs = deviations.flatMap((d) => Array.from({ length: 364 }, (_, i) => [d[i], d[i + 1]] as const))
    expect(Math.abs(correlation(pairs) - 0.7)).toBeLessThan(0.03)
  })
  it('is higher on clear days in July and lower in January', () => {
    const monthly = (first: number): number =>
      correlation(
        years.flatMap((y) =>
          Array.from(
            { length: 31 },
            (_, i) => [y.clearness[first + i], y.meanTemperature_C[first + i]] as const,
          ),
        ),
      )
    expect(monthly(181)).toBeGreaterThan(0.2)
    expect(monthly(0)).toBeLessThan(-0.2)
  })
})

describe('a path', () => {
  it('is the same for the same stream', () => {
    const [a] = independentYears(NORTH, 1, 3)
    expect(independentYears(NORTH, 1, 3)[0]).toEqual(a)
    expect(independentYears(NORTH, 1, 4)[0]).not.toEqual(a)
  })
  it('must be started', () => {
    expect(() => new WeatherPath(prepareGenerator(NORTH)).nextDay(0)).toThrow(/started/)
  })
})

describe('a climate that no law can hold', () => {
  it('is refused with the value', () => {
    expect(() => prepareGenerator({ ...NORTH, clearness: new Array(12).fill(0.9) })).toThrow(/0\.9/)
    expect(() => prepareGenerator({ ...NORTH, persistence: 0.99 })).toThrow(/0\.99/)
  })
  it('but a month darker than the floor gets a lower floor', () => {
    const generator = prepareGenerator({ ...NORTH, clearness: new Array(12).fill(0.04) })
    expect(generator.clearnessByScore[0]).toBeCloseTo(0.02, 4)
  })
})
