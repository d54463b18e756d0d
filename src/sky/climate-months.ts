/**
 * A climate from the twelve monthly means that tables give: sunshine hours or irradiation, and temperatures. Months run
 * from January; sunshine in hours a day; irradiation in J/m² a day on the horizontal. RangeError, naming month and
 * value, for what cannot be.
 */
import { monthlyMeans } from './calendar.ts'
import { dailyExtraterrestrial_J_m2 } from './extraterrestrial.ts'
import type { Climate } from './place.ts'
import { dayLength_h } from './sun-angles.ts'
import { declination_deg } from './sun-day.ts'

export interface MonthlyTemperatures {
  readonly temperature_C: readonly number[]
  /** Mean daily maximum less mean daily minimum. */
  readonly dailyRange_K: readonly number[]
}

/** What monthly means do not say; from memory, and near the two typical years of docs/models/weather.md. */
const UNSEEN = {
  floor: 0.05, // Bendt et al. (1981)
  persistence: 0.29, // Graham, Hollands & Brunger (1988)
  dailyDeviation_K: 3.5,
  temperaturePersistence: 0.7,
} as const

/** Clearness index from the share of daylight with sunshine: Ångström-Prescott, FAO-56 Eq. 35 and its defaults. */
const angstromPrescott = (sunshineShare: number, a = 0.25, b = 0.5): number => a + b * sunshineShare

/** A month with less light above the air than this (J/m² a day) tells nothing of clearness. */
const DARK_J_m2 = 1e5
/** With less than this, twilight counts. */
const TWILIGHT_J_m2 = 1e6
export const LARGEST_CLEARNESS = 0.8

const days = Array.from({ length: 365 }, (_, day) => day)

/** Monthly means of the extraterrestrial irradiation, J/m² a day. */
const monthlyExtraterrestrial_J_m2 = (latitude_deg: number): number[] =>
  monthlyMeans(days.map((day) => dailyExtraterrestrial_J_m2(latitude_deg, day + 1)))

/** Monthly means of the time between sunrise and sunset, hours. */
export const monthlyDayLength_h = (latitude_deg: number): number[] =>
  monthlyMeans(days.map((day) => dayLength_h(latitude_deg, declination_deg(day + 1))))

function requireTwelve(what: string, values: readonly number[], low: number, high: number): void {
  if (values.length !== 12) throw new RangeError(`${what}: twelve monthly values, not ${values.length}`)
  for (const [month, value] of values.entries())
    if (!(value >= low && value <= high))
      throw new RangeError(`${what} of month ${month + 1} is ${value}, not ${low} to ${high}`)
}

/** Months without light take the mean of the nearest lit months; it multiplies nothing, but laws need a number. */
function fillDark(clearness: readonly (number | null)[]): number[] {
  const lit = (month: number, way: 1 | -1): number => {
    for (let step = 1; step < 12; step++) {
      const value = clearness[(month + way * step + 12) % 12]
      if (value !== null) return value
    }
    throw new RangeError('no month of the year has light')
  }
  return clearness.map((value, month) => value ?? (lit(month, 1) + lit(month, -1)) / 2)
}

function climateOf(
  clearness: readonly number[],
  { temperature_C, dailyRange_K }: MonthlyTemperatures,
): Climate {
  requireTwelve('mean temperature', temperature_C, -80, 50)
  requireTwelve('daily temperature range', dailyRange_K, 0, 40)
  requireTwelve('clearness index', clearness, 0.01, LARGEST_CLEARNESS)
  return { clearness, temperature_C, dailyRange_K, ...UNSEEN }
}

/** From sunshine hours a day; up to 3 % above the day length is taken for rounding. */
export function climateFromSunshine(
  latitude_deg: number,
  sunshine_h: readonly number[],
  temperatures: MonthlyTemperatures,
  coefficients: { readonly a: number; readonly b: number } = { a: 0.25, b: 0.5 },
): Climate {
  requireTwelve('sunshine', sunshine_h, 0, 24)
  const dayLength = monthlyDayLength_h(latitude_deg)
  const light = monthlyExtraterrestrial_J_m2(latitude_deg)
  const clearness = sunshine_h.map((hours, month) => {
    if (hours > 1.03 * dayLength[month])
      throw new RangeError(
        `sunshine of month ${month + 1} is ${hours} h a day, its day ${dayLength[month].toFixed(1)} h long`,
      )
    if (light[month] < DARK_J_m2) return null
    return angstromPrescott(Math.min(hours / dayLength[month], 1), coefficients.a, coefficients.b)
  })
  return climateOf(fillDark(clearness), temperatures)
}

/** From daily irradiation on the horizontal. */
export function climateFromIrradiation(
  latitude_deg: number,
  irradiation_J_m2: readonly number[],
  temperatures: MonthlyTemperatures,
): Climate {
  return climateOf(clearnessFromIrradiation(latitude_deg, irradiation_J_m2), temperatures)
}

/**
 * Monthly clearness: mean irradiation over mean extraterrestrial irradiation. In a month of low sun, where twilight alone
 * can exceed the light above the air, it is held at the largest that the daily laws know.
 */
export function clearnessFromIrradiation(
  latitude_deg: number,
  irradiation_J_m2: readonly number[],
): number[] {
  requireTwelve('irradiation', irradiation_J_m2, 0, 5e7)
  const light = monthlyExtraterrestrial_J_m2(latitude_deg)
  return fillDark(
    irradiation_J_m2.map((value, month) => {
      if (light[month] < DARK_J_m2) return null
      if (light[month] > TWILIGHT_J_m2 && value > LARGEST_CLEARNESS * light[month])
        throw new RangeError(
          `irradiation of month ${month + 1} is ${value} J/m² a day, above ${LARGEST_CLEARNESS} of the ${Math.round(light[month])} outside the air`,
        )
      return Math.min(value / light[month], LARGEST_CLEARNESS)
    }),
  )
}
