import { describe, expect, it } from 'vitest'
import { dailyFromMonthly } from './annual-cycle.ts'
import { monthlyMeans } from './calendar.ts'
import { climateFromIrradiation, climateFromSunshine } from './climate-months.ts'

const MILD = { temperature_C: new Array<number>(12).fill(15), dailyRange_K: new Array<number>(12).fill(8) }
const all = (value: number): number[] => new Array<number>(12).fill(value)

describe('climate from sunshine hours', () => {
  it('gives FAO-56 example 10: 220 h in May at 22°54′ S are 14.5 MJ/m² a day of the 25.1 outside', () => {
    const climate = climateFromSunshine(-22.9, all(220 / 31), MILD)
    expect(climate.clearness[4]).toBeCloseTo(14.45 / 25.1, 2)
  })
  it('takes other coefficients', () => {
    expect(climateFromSunshine(0, all(6), MILD, { a: 0.2, b: 0.6 }).clearness[5]).toBeCloseTo(
      0.2 + 0.6 * 0.5,
      2,
    )
  })
  it('refuses sunshine at night, naming the month', () => {
    expect(() => climateFromSunshine(58, all(8), MILD)).toThrow(/month 1 is 8 h a day, its day 7\.0 h long/)
  })
  it('gives the dark months of a polar place a number from its lit ones', () => {
    const sunshine = [0, 0, 3, 6, 8, 8, 8, 6, 3, 1, 0, 0]
    const { clearness } = climateFromSunshine(78, sunshine, MILD)
    expect(clearness.every((k) => k > 0.2 && k < 0.8)).toBe(true)
  })
})

describe('climate from irradiation', () => {
  it('divides by the light outside the air, 41.9 MJ/m² a day at 40° N in June (FAO-56 table 2.6, from memory)', () => {
    expect(climateFromIrradiation(40, all(7e6), MILD).clearness[5]).toBeCloseTo(7 / 41.9, 2)
  })
  it('refuses more light than a clear sky gives', () => {
    expect(() => climateFromIrradiation(58, all(15e6), MILD)).toThrow(/irradiation of month 1/)
  })
  it('refuses eleven months and impossible temperatures', () => {
    expect(() => climateFromIrradiation(0, all(15e6).slice(1), MILD)).toThrow(/twelve/)
    expect(() => climateFromIrradiation(0, all(15e6), { ...MILD, temperature_C: all(288) })).toThrow(
      /month 1 is 288/,
    )
  })
})

describe('a smooth year', () => {
  it('keeps the monthly means', () => {
    const means = [-3, -3, 0, 5, 11, 15, 17, 16, 12, 7, 3, -1]
    for (const [month, mean] of monthlyMeans(dailyFromMonthly(means)).entries())
      expect(mean).toBeCloseTo(means[month], 9)
  })
  it('has no jump between days', () => {
    const daily = dailyFromMonthly([0, 10, 0, 10, 0, 10, 0, 10, 0, 10, 0, 10])
    for (let day = 0; day < 365; day++)
      expect(Math.abs(daily[(day + 1) % 365] - daily[day])).toBeLessThan(1.5)
  })
})
