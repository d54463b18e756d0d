/** The year of 365 days in which all weather is counted; day, hour and month from 0. The sun's models
 * count days from 1. */

export const DAYS = 365
export const HOURS = 8760
export const MONTH_LENGTHS: readonly number[] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

/** First day of each month, and 365 as the thirteenth. */
export const MONTH_STARTS: readonly number[] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365]

/** Month 0..11 of each day 0..364. */
export const MONTH_OF_DAY: readonly number[] = MONTH_LENGTHS.flatMap((length, month) =>
  new Array<number>(length).fill(month),
)

/** Is there such a day in some year? 29 February counts. */
export const isDate = (month: number, day: number): boolean =>
  Number.isInteger(month) &&
  Number.isInteger(day) &&
  month >= 1 &&
  month <= 12 &&
  day >= 1 &&
  day <= MONTH_LENGTHS[month - 1] + (month === 2 ? 1 : 0)

/** Day 0..364 of a month 1..12 and day 1..31, or null on 29 February, which the year of 365 days has not. */
export const dayIndex = (month: number, day: number): number | null =>
  month === 2 && day === 29 ? null : MONTH_STARTS[month - 1] + day - 1

/** Mean over the days of each month of a daily series. */
export const monthlyMeans = (daily: ArrayLike<number>): number[] =>
  MONTH_LENGTHS.map((length, month) => {
    let sum = 0
    for (let d = MONTH_STARTS[month]; d < MONTH_STARTS[month + 1]; d++) sum += daily[d]
    return sum / length
  })
