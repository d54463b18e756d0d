/**
 * The days of a long life in strides: one day at first, then never more than a fiftieth of what has gone by, and a
 * fortnight at most. No stride crosses the end of a winter year.
 */
import { DAYS } from '../sky/calendar.ts'

const SHARE_OF_AGE = 50
/** Few lengths, because each wants a plan of its own. */
const LENGTHS_DAYS = [14, 7, 4, 2, 1]

export interface Strides {
  /** How many days each takes. */
  readonly days: Uint8Array
  /** By which strides of another life can be told apart. */
  readonly key: string
}

/** Strides through so many years of 365 days; one ends after `judgedDays`, where counts are taken. */
export function stridesOf(years: number, judgedDays: number): Strides {
  const days: number[] = []
  for (let day = 0; day < years * DAYS; day += days[days.length - 1]) {
    const toYearsEnd = DAYS - (day % DAYS)
    const toJudged = day < judgedDays ? judgedDays - day : Infinity
    const most = Math.min(day / SHARE_OF_AGE, toYearsEnd, toJudged)
    days.push(LENGTHS_DAYS.find((length) => length <= most) ?? 1)
  }
  return { days: Uint8Array.from(days), key: `${years} ${judgedDays}` }
}
