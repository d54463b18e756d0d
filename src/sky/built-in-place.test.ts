import { describe, expect, it } from 'vitest'
import { BUILT_IN_PLACES, climateOfPlace, findPlace } from './built-in-place.ts'
import { MONTH_LENGTHS, MONTH_OF_DAY } from './calendar.ts'
import { monthlyDayLength_h } from './climate-months.ts'
import { prepareGenerator } from './generator.ts'
import { expectedLight_J_m2 } from './year-cut.ts'

const J_PER_kWh = 3.6e6

/** kWh/m² a year on the horizontal. */
function annualLight(name: string): number {
  const found = findPlace(name)
  if (!found.ok) throw new Error(`no place ${name}`)
  const { clearness } = climateOfPlace(found.place)
  return expectedLight_J_m2(found.place.latitude_deg, clearness).reduce((sum, x) => sum + x, 0) / J_PER_kWh
}

it('there are forty, each once, on all continents', () => {
  expect(BUILT_IN_PLACES).toHaveLength(40)
  expect(new Set(BUILT_IN_PLACES.map((place) => place.name)).size).toBe(40)
})

describe.each(BUILT_IN_PLACES.map((place) => [place.name, place] as const))('%s', (_, place) => {
  it('has twelve months of everything, within what the earth knows', () => {
    for (const months of [place.sunshine_h, place.temperature_C, place.dailyRange_K])
      expect(months).toHaveLength(12)
    expect(Math.abs(place.longitude_deg / 15 - place.zone_h)).toBeLessThan(2.2)
    expect(Math.min(...place.temperature_C)).toBeGreaterThan(-30)
    expect(Math.max(...place.temperature_C)).toBeLessThan(40)
    expect(Math.min(...place.dailyRange_K)).toBeGreaterThanOrEqual(3)
    expect(Math.max(...place.dailyRange_K)).toBeLessThanOrEqual(18)
  })
  it('has no sunshine beyond its days, and at most 97 % of them', () => {
    for (const [month, length_h] of monthlyDayLength_h(place.latitude_deg).entries())
      expect(place.sunshine_h[month]).toBeLessThanOrEqual(0.97 * length_h * MONTH_LENGTHS[month])
  })
  it('gets 600 to 2500 kWh/m² a year, and makes a generator under either law', () => {
    const light = annualLight(place.name)
    expect(light).toBeGreaterThan(600)
    expect(light).toBeLessThan(2500)
    const climate = climateOfPlace(place)
    for (const law of ['bendt', 'hollands-huget'] as const)
      expect(prepareGenerator(climate, law).clearnessByScore.every(Number.isFinite)).toBe(true)
  })
})

describe('annual irradiation on the horizontal against well-known figures (from memory, kWh/m², ±12 %)', () => {
  // Sunshine gives irradiation within about 10 % a year (FAO-56 coefficients, not fitted to the place).
  it.each([
    ['Berlin', 1050],
    ['London', 1010],
    ['Madrid', 1750],
    ['Cairo', 2050],
    ['Phoenix', 2130],
    ['Singapore', 1630],
    ['Tokyo', 1400],
    ['Cape Town', 1900],
    ['Sydney', 1680],
    ['Bergen', 780],
  ])('%s %i', (name, expected) => {
    expect(Math.abs(annualLight(name) / expected - 1)).toBeLessThan(0.12)
  })
})

describe('the year of a place', () => {
  it('is darkest in December at 60° N and in June at 54° S', () => {
    const darkest = (name: string): number => {
      const found = findPlace(name)
      if (!found.ok) throw new Error(name)
      const light = expectedLight_J_m2(found.place.latitude_deg, climateOfPlace(found.place).clearness)
      return MONTH_OF_DAY[light.indexOf(Math.min(...light))]
    }
    expect(darkest('Oslo')).toBe(11)
    expect(darkest('Punta Arenas')).toBe(5)
  })
})

describe('finding a place', () => {
  it('takes no notice of case, accents and blanks', () => {
    expect(findPlace('  tromsø ')).toMatchObject({ ok: true, place: { name: 'Tromso' } })
    expect(findPlace('CAPE  TOWN')).toMatchObject({ ok: true })
  })
  it('suggests the nearest name', () => {
    expect(findPlace('Bergn')).toEqual({ ok: false, nearest: 'Bergen' })
    expect(findPlace('Singapur')).toEqual({ ok: false, nearest: 'Singapore' })
  })
})
