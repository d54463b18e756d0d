/** One measured quantity over the hours of a year, with which hours are known and which line said so. */
import { HOURS } from './calendar.ts'
import type { ProblemList } from './weather-result.ts'

/** Longest run of missing hours that straight lines may bridge. */
export const LONGEST_GAP_H = 6

export interface Column {
  readonly name: string
  readonly values: Float64Array
  /** 1 where the hour has a value. */
  readonly known: Uint8Array
}

export const emptyColumn = (name: string): Column => ({
  name,
  values: new Float64Array(HOURS),
  known: new Uint8Array(HOURS),
})

export function setHour(column: Column, hour: number, value: number): void {
  column.values[hour] = value
  column.known[hour] = 1
}

export const hasData = (column: Column): boolean => column.known.includes(1)

/**
 * Bridges gaps of up to LONGEST_GAP_H hours by straight lines, the year taken as a ring; a longer one is a problem.
 * Returns how many hours were bridged. `lineOfHour` is 0 where the file has no line for the hour.
 */
export function bridgeGaps(column: Column, lineOfHour: Int32Array, problems: ProblemList): number {
  const { values, known, name } = column
  const first = known.indexOf(1)
  if (first < 0) {
    problems.add(
      'weather.column',
      null,
      `${name} is missing in every hour`,
      `${name} for each hour of the year`,
      'use a file that has it',
    )
    return 0
  }
  let bridged = 0
  let left = first
  for (let step = 1; step <= HOURS; step++) {
    const right = (first + step) % HOURS
    if (!known[right]) continue
    const gap = (right - left + HOURS - 1) % HOURS
    if (gap > LONGEST_GAP_H) reportGap(column, left, gap, lineOfHour, problems)
    else
      for (let i = 1; i <= gap; i++) {
        values[(left + i) % HOURS] = values[left] + ((values[right] - values[left]) * i) / (gap + 1)
        bridged++
      }
    left = right
  }
  return bridged
}

function reportGap(
  column: Column,
  left: number,
  gap: number,
  lineOfHour: Int32Array,
  problems: ProblemList,
): void {
  const start = (left + 1) % HOURS
  const line = lineOfHour[start] || lineOfHour[left] || null
  const where = `day ${Math.floor(start / 24) + 1} of the year, hour ${start % 24}`
  problems.add(
    'weather.gap',
    line,
    `${column.name} is missing for ${gap} hours from ${where} on`,
    `gaps of at most ${LONGEST_GAP_H} hours, which are bridged by straight lines`,
    'fill the gap from another source, or use another year',
  )
}
