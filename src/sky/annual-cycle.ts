/** A smooth year through twelve monthly means. */
import { DAYS, MONTH_LENGTHS, MONTH_STARTS, monthlyMeans } from './calendar.ts'

/** Straight lines between values in the middle of the months, the year taken as a ring. */
function throughMiddles(nodes: readonly number[]): Float64Array {
  const daily = new Float64Array(DAYS)
  for (let month = 0; month < 12; month++) {
    const next = (month + 1) % 12
    const middle = MONTH_STARTS[month] + MONTH_LENGTHS[month] / 2
    const width = (MONTH_LENGTHS[month] + MONTH_LENGTHS[next]) / 2
    for (let day = Math.ceil(middle - 0.5); day + 0.5 < middle + width; day++)
      daily[day % DAYS] = nodes[month] + ((nodes[next] - nodes[month]) * (day + 0.5 - middle)) / width
  }
  return daily
}

/**
 * Daily values, straight between mid-months, whose monthly means are those asked: the nodes are moved until they are.
 * A node's month holds about three quarters of its own value, so each pass leaves less than half of the error.
 */
export function dailyFromMonthly(means: readonly number[]): Float64Array {
  const nodes = [...means]
  let daily = throughMiddles(nodes)
  for (let pass = 0; pass < 60; pass++) {
    const found = monthlyMeans(daily)
    for (let month = 0; month < 12; month++) nodes[month] += means[month] - found[month]
    daily = throughMiddles(nodes)
  }
  return daily
}
