/** When the battery may be charged: its window of temperature against the air of each month. °C. */
import type { Climate } from '../../sky/place.ts'
import type { ChargeWindow } from '../../supply/supply.ts'

export interface MonthAir {
  /** 0 is January. */
  readonly month: number
  readonly night_C: number
  readonly day_C: number
  /** One night or day in forty goes beyond. */
  readonly coldNight_C: number
  readonly hotDay_C: number
  /** Inside the box on that hot day, in full sun. */
  readonly box_C: number
  readonly isNightTooCold: boolean
  readonly isDayTooCold: boolean
  readonly isBoxTooHot: boolean
}

const DEVIATIONS = 2

/** `rise_K` is how much warmer than the air the battery gets in full sun. */
export function monthsOf(climate: Climate, rise_K: number, window: ChargeWindow): MonthAir[] {
  return climate.temperature_C.map((mean_C, month) => {
    const half_K = climate.dailyRange_K[month] / 2
    const spread_K = DEVIATIONS * climate.dailyDeviation_K
    const night_C = mean_C - half_K
    const day_C = mean_C + half_K
    const box_C = day_C + spread_K + rise_K
    return {
      month,
      night_C,
      day_C,
      coldNight_C: night_C - spread_K,
      hotDay_C: day_C + spread_K,
      box_C,
      isNightTooCold: night_C < window.low_C,
      isDayTooCold: day_C < window.low_C,
      isBoxTooHot: box_C > window.high_C,
    }
  })
}
