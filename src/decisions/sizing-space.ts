/** The designs that `size` looks at: the outpost's own first, then preferred sizes around it, then the sum on paper. */
import { atBest } from '../outlook/draw.ts'
import { wakesOf } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { best } from '../quantity/spread.ts'
import { offGridSum, USUAL_ARRAY_TO_LOAD, USUAL_AUTONOMY_days } from './closed-form.ts'
import type { DesignSpace, Picked, SizedPanel } from './common-runs.ts'
import type { Axes } from './sizing.ts'
import {
  allowsInterval,
  CUSTOMARY_INTERVALS_s,
  intervalOf,
  intervalsAround,
  preferredAround,
  ratedPower_W,
  withCapacity,
} from './sizing-axes.ts'

export interface SizingSpace {
  readonly space: DesignSpace
  /** For each question by itself: fine steps, far to both sides. */
  readonly fine: Axes
  readonly frontier: Axes
  /** What array over load and days of autonomy would have picked; null without a panel. */
  readonly onPaper: Picked | null
}

/** So many preferred numbers (R20) to either side of the outpost's own: a factor of ten. */
const REACH = 20
/** The frontier: twelve sizes in steps of R10, from a quarter of the outpost's own to three times it. */
const FRONTIER = { below: 7, above: 5, stride: 2 }
const FRONTIER_INTERVALS = { shorter: 2, longer: 2 }

/** Values asked for on the frontier, in rising order; null for those around the outpost's own. */
export interface AskedAxes {
  readonly capacities_C: readonly number[] | null
  readonly powers_W: readonly number[] | null
  readonly intervals_s: readonly number[] | null
}

export const AROUND_ITS_OWN: AskedAxes = { capacities_C: null, powers_W: null, intervals_s: null }

export type Settings = Omit<DesignSpace, 'outpost' | 'packs' | 'panels' | 'intervals_s'>

/** RangeError where an interval is asked for that the schedule cannot have; powers are left aside without a panel. */
export function sizingSpace(
  outpost: Outpost,
  settings: Settings,
  asked: AskedAxes = AROUND_ITS_OWN,
): SizingSpace {
  const { pack, panel } = outpost.supply
  const own_C = best(pack.capacity_C)
  const own_W = panel === null ? null : ratedPower_W(panel)
  const own_s = intervalOf(outpost)
  const allowed = (interval_s: number) => allowsInterval(outpost, interval_s)

  // Preferred numbers in the units of the trade: mAh and W.
  const fine_C = preferredAround(own_C / 3.6, REACH, REACH).map((mAh) => 3.6 * mAh)
  const coarse_C = asked.capacities_C ?? around(own_C / 3.6).map((mAh) => 3.6 * mAh)
  const fine_W = own_W === null ? [] : preferredAround(own_W, REACH, REACH)
  const coarse_W = own_W === null ? [] : (asked.powers_W ?? around(own_W))
  const near_s =
    own_s === null ? [] : intervalsAround(own_s, FRONTIER_INTERVALS.shorter, FRONTIER_INTERVALS.longer)
  const fine_s = [...new Set([...CUSTOMARY_INTERVALS_s, ...near_s])].filter(allowed).sort((a, b) => a - b)
  const coarse_s = asked.intervals_s ?? near_s.filter(allowed)
  const paper = onPaper(outpost, settings)

  const capacities_C = [
    own_C,
    ...new Set([...fine_C, ...coarse_C]),
    ...(paper === null ? [] : [paper.capacity_C]),
  ]
  const powers_W =
    own_W === null
      ? []
      : [own_W, ...new Set([...fine_W, ...coarse_W]), ...(paper === null ? [] : [paper.panel_W])]
  const intervals_s = [own_s, ...(own_s === null ? [] : new Set([...fine_s, ...coarse_s]))]
  const panels: (SizedPanel | null)[] =
    panel === null || own_W === null ? [null] : powers_W.map((power_W) => ({ panel, times: power_W / own_W }))

  const places = (values: readonly (number | null)[], wanted: readonly number[]) =>
    wanted.map((value) => values.indexOf(value, 1))
  return {
    space: {
      ...settings,
      outpost,
      packs: capacities_C.map((capacity_C, i) => (i === 0 ? pack : withCapacity(pack, capacity_C))),
      panels,
      intervals_s: intervals_s.map((interval_s, i) => (i === 0 ? null : interval_s)),
    },
    fine: {
      packs: places(capacities_C, fine_C),
      panels: places(powers_W, fine_W),
      intervals: own_s === null ? [] : places(intervals_s, fine_s),
    },
    frontier: {
      packs: places(capacities_C, coarse_C),
      panels: own_W === null ? [0] : places(powers_W, coarse_W),
      intervals: own_s === null ? [0] : places(intervals_s, coarse_s),
    },
    onPaper:
      paper === null ? null : { pack: capacities_C.length - 1, panel: powers_W.length - 1, interval: 0 },
  }
}

const around = (centre: number) => preferredAround(centre, FRONTIER.below, FRONTIER.above, FRONTIER.stride)

/** The cell for ten days of autonomy and the panel for 1.3 times the load in the worst month. */
function onPaper(outpost: Outpost, settings: Settings): { capacity_C: number; panel_W: number } | null {
  const design = atBest(outpost)
  const { panel, pack } = design.supply
  const [usual] = wakesOf(design.wake, design.place, settings)
  const { autonomy_days, array } = offGridSum(design, usual.wakesPerDay)
  if (panel === null || array === null || !(array.toLoad > 0)) return null
  return {
    capacity_C: (pack.capacity_C * USUAL_AUTONOMY_days) / autonomy_days,
    panel_W: (panel.maximumPower_V * panel.maximumPower_A * USUAL_ARRAY_TO_LOAD) / array.toLoad,
  }
}
