/** Gathers intervals of an hour or less into the hours of the year that they cover. */
import { HOURS } from './calendar.ts'
import { setHour } from './weather-column.ts'
import type { ProblemList } from './weather-result.ts'
import { claimHour, type Quantity, type WeatherTable } from './weather-table.ts'

export class HourMeans {
  private readonly covered_min = new Float64Array(HOURS)
  private readonly sums: readonly {
    readonly quantity: Quantity
    readonly minutes: Float64Array
    readonly total: Float64Array
  }[]

  constructor(quantities: readonly Quantity[]) {
    this.sums = quantities.map((quantity) => ({
      quantity,
      minutes: new Float64Array(HOURS),
      total: new Float64Array(HOURS),
    }))
  }

  /** Adds `minutes` of an interval to an hour; one value (null: missing) for each quantity, in their order. */
  add(
    hour: number,
    minutes: number,
    values: readonly (number | null)[],
    line: number,
    table: WeatherTable,
    problems: ProblemList,
  ): void {
    this.covered_min[hour] += minutes
    if (this.covered_min[hour] > 60) claimHour(table, hour, line, problems)
    else if (table.lineOfHour[hour] === 0) table.lineOfHour[hour] = line
    for (const [i, value] of values.entries()) {
      if (value === null) continue
      this.sums[i].minutes[hour] += minutes
      this.sums[i].total[hour] += minutes * value
    }
  }

  /** An hour counts as known only where all sixty of its minutes are. */
  writeTo(table: WeatherTable): void {
    for (const { quantity, minutes, total } of this.sums)
      for (let hour = 0; hour < HOURS; hour++)
        if (minutes[hour] === 60) setHour(table[quantity], hour, total[hour] / 60)
  }
}
