/** The values between which a size is chosen: preferred numbers for cells and panels, customary intervals for time. */
import { resolvePart } from '../outpost/inputs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { times } from '../quantity/scaled.ts'
import { best } from '../quantity/spread.ts'
import { cellOf, chemistriesByCapacity } from '../supply/cell-catalogue.ts'
import type { Pack, Panel } from '../supply/supply.ts'
import type { Schedule } from '../wake/wake.ts'

/** Renard's rounded series R20 (ISO 3): twenty steps to a decade, each about 12 % above the last. */
const R20 = [
  1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9,
] as const

/** Intervals as people set them, in seconds. */
export const CUSTOMARY_INTERVALS_s: readonly number[] = [
  ...[10, 12, 15, 20, 25, 30, 40, 50],
  ...[1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 45, 50].map((minutes) => 60 * minutes),
  ...[1, 1.5, 2, 2.5, 3, 4, 6, 8, 12, 24].map((hours) => 3600 * hours),
]

/**
 * Preferred numbers (every `stride`-th of R20: 2 gives R10) around `centre`: `below` of them up to it, `above` of them
 * beyond. `centre` must be above 0.
 */
export function preferredAround(centre: number, below: number, above: number, stride = 1): number[] {
  if (!(centre > 0))
    throw new RangeError(`preferred numbers are above zero; asked for those around ${centre}`)
  const nearest = Math.round(20 * Math.log10(centre))
  const at = (place: number) => {
    const decade = Math.floor(place / 20)
    return Number(`${R20[place - 20 * decade]}e${decade}`)
  }
  return Array.from({ length: below + above }, (_, i) => at(nearest + stride * (i - below + 1)))
}

/** The customary intervals nearest to `interval_s`: itself, then `below` shorter and `above` longer, in rising order. */
export function intervalsAround(interval_s: number, below: number, above: number): number[] {
  const near = (t: number) => Math.abs(t / interval_s - 1) < 0.02
  const shorter = CUSTOMARY_INTERVALS_s.filter((t) => t < interval_s && !near(t)).slice(-below)
  const longer = CUSTOMARY_INTERVALS_s.filter((t) => t > interval_s && !near(t)).slice(0, above)
  return [...(below > 0 ? shorter : []), interval_s, ...longer]
}

/**
 * The pack with cells of another capacity, its tolerance in proportion. Of a chemistry that comes in any size it is one
 * larger cell; a cell of fixed size is taken as so much more of the same in parallel.
 */
export function withCapacity(pack: Pack, capacity_C: number): Pack {
  const factor = capacity_C / best(pack.capacity_C)
  const scaled = times(pack.capacity_C, factor)
  const { cell } = pack
  if (chemistriesByCapacity.includes(cell.chemistry)) {
    const sized = cellOf(cell.chemistry, capacity_C)
    return { ...pack, cell: { ...sized, charging: cell.charging }, capacity_C: scaled }
  }
  const { x, y } = cell.resistance_Ohm
  const resistance_Ohm = { x, y: y.map((ohm) => ohm / factor) }
  return {
    ...pack,
    cell: { ...cell, capacity_C: cell.capacity_C * factor, resistance_Ohm },
    capacity_C: scaled,
  }
}

/** Power of a panel at its best point under standard test conditions. */
export function ratedPower_W(panel: Panel): number {
  const { maximumPower_V, maximumPower_A } = resolvePart(panel, best)
  return maximumPower_V * maximumPower_A
}

/** What the file states as the interval between wakes; null where wakes follow the time of day, or events alone. */
export function intervalOf({ wake }: Outpost): number | null {
  const { schedule } = wake.cadence
  switch (schedule?.kind) {
    case 'rest':
      return best(schedule.rest_s)
    case 'rate':
      return best(schedule.period_s)
    case 'clock-minutes':
      return 60 * schedule.minutes
    default:
      return null
  }
}

/**
 * The outpost with another interval in its schedule; null leaves it. Rows of a thrift table that would then quicken
 * what they are there to slow down are left out. RangeError where the schedule has no interval, or the clock none so fine.
 */
export function withInterval(outpost: Outpost, interval_s: number | null): Outpost {
  if (interval_s === null) return outpost
  const { cadence } = outpost.wake
  const thrift = cadence.thrift.filter((row) => row.interval_s > interval_s)
  return {
    ...outpost,
    wake: {
      ...outpost.wake,
      cadence: { ...cadence, thrift, schedule: scheduled(cadence.schedule, interval_s) },
    },
  }
}

function scheduled(schedule: Schedule | null, interval_s: number): Schedule {
  switch (schedule?.kind) {
    case 'rest':
      return { kind: 'rest', rest_s: { kind: 'exact', value: interval_s } }
    case 'rate':
      return { kind: 'rate', period_s: { kind: 'exact', value: interval_s } }
    case 'clock-minutes':
      if (!Number.isInteger(interval_s / 60))
        throw new RangeError(`a clock with alarms in whole minutes cannot wait ${interval_s} s`)
      return { kind: 'clock-minutes', minutes: interval_s / 60 }
    default:
      throw new RangeError('wakes at times of day, or by events alone, have no interval to change')
  }
}

/** Whether the schedule can hold this interval. */
export const allowsInterval = ({ wake }: Outpost, interval_s: number): boolean =>
  wake.cadence.schedule?.kind !== 'clock-minutes' || Number.isInteger(interval_s / 60)
