/** The values of the frontier: those that were asked for, where the outpost can have them, and what they came to. */
import { allowsInterval, intervalOf } from '../decisions/sizing-axes.ts'
import type { AskedAxes, SizingSpace } from '../decisions/sizing-space.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { formatQuantity } from '../quantity/format.ts'
import { best } from '../quantity/spread.ts'
import type { FrontierAxes } from '../report/sizing.ts'
import { Refusal } from './refusal.ts'

/** Throws a Refusal where panels are asked for and there is none, or intervals that the schedule cannot have. */
export function refuseImpossible(path: string, outpost: Outpost, { powers_W, intervals_s }: AskedAxes): void {
  if (powers_W !== null && outpost.supply.panel === null)
    throw new Refusal(
      `${path} has no panel, so none can be larger or smaller [no-panel]\n  expected: cells and intervals alone\n  cure: leave the panels out, or give the outpost a panel and a charger`,
    )
  if (intervals_s === null) return
  if (intervalOf(outpost) === null)
    throw new Refusal(
      `${path} wakes at times of day or by events, which have no interval to change [no-interval]\n  expected: cells and panels alone\n  cure: leave the intervals out, or give the cadence a rest, a rate or clock minutes`,
    )
  const broken = intervals_s.filter((interval_s) => !allowsInterval(outpost, interval_s))
  if (broken.length > 0)
    throw new Refusal(
      `${path} wakes by a clock with minute resolution, which cannot wait ${broken.map(inWords).join(', ')} [whole-minutes]\n  expected: whole minutes\n  cure: give intervals in whole minutes`,
    )
}

const inWords = (interval_s: number) => formatQuantity(interval_s, 'duration', { digits: 6 })

export function axesOf({ space, frontier }: SizingSpace, asked: AskedAxes): FrontierAxes {
  const own_s = intervalOf(space.outpost)
  const powerOf = (place: number) => {
    const sized = space.panels[place]
    return sized === null
      ? []
      : [best(sized.panel.maximumPower_V) * best(sized.panel.maximumPower_A) * sized.times]
  }
  return {
    capacities_C: frontier.packs.map((place) => best(space.packs[place].capacity_C)),
    powers_W: frontier.panels.flatMap(powerOf),
    intervals_s: frontier.intervals.map((place) => space.intervals_s[place] ?? own_s),
    asked: [
      ...(asked.capacities_C === null ? [] : ['cells' as const]),
      ...(asked.powers_W === null ? [] : ['panels' as const]),
      ...(asked.intervals_s === null ? [] : ['intervals' as const]),
    ],
  }
}
