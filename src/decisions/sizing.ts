/**
 * How small a cell, how small a panel, how short an interval: each with the rest of the design as it is, and all of them
 * together as a frontier. Every answer is a design that was simulated and passed.
 */
import { atBest } from '../outlook/draw.ts'
import { wakesOf } from '../outlook/ensemble.ts'
import type { Share } from '../outlook/outlook.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { times } from '../quantity/scaled.ts'
import type { Panel } from '../supply/supply.ts'
import { type OffGridSum, offGridSum } from './closed-form.ts'
import type { Asked, DesignSpace, Picked } from './common-runs.ts'
import { withInterval } from './sizing-axes.ts'
import { type Evidence, type Ruling, survivalOf } from './sizing-evidence.ts'
import { firstPassing } from './sizing-search.ts'
import { inParallel, type Study } from './study.ts'

/** A design of the space in the trade's figures, and what its runs came to. */
export interface Sized {
  readonly pick: Picked
  /** Of one cell when new. */
  readonly capacity_C: number
  readonly panel_W: number | null
  /** Null where wakes follow no interval. */
  readonly interval_s: number | null
  readonly reportsPerDay: number
  readonly survival: Share
  readonly runs: number
  readonly offGrid: OffGridSum
}

/** Places along each axis of the space, from worst to best design; empty where the question makes no sense. */
export interface Axes {
  readonly packs: readonly number[]
  readonly panels: readonly number[]
  readonly intervals: readonly number[]
}

export interface SizingAnswers {
  readonly asItIs: { readonly design: Sized; readonly ruling: Ruling }
  readonly smallestCell: Sized | null
  readonly smallestPanel: Sized | null
  readonly shortestInterval: Sized | null
}

/** The outpost as it stands: the first of each axis. */
export const OWN: Picked = { pack: 0, panel: 0, interval: 0 }

/** Each question for itself, all of them at once. */
export function* sizeEach(space: DesignSpace, axes: Axes, evidence: Evidence): Study<SizingAnswers> {
  const lines = [
    axes.packs.map((pack) => ({ ...OWN, pack })),
    axes.panels.map((panel) => ({ ...OWN, panel })),
    axes.intervals.map((interval) => ({ ...OWN, interval })),
  ]
  const ruling = yield* evidence.judge(OWN)
  const places = yield* inParallel(lines.map((picks) => firstPassing(picks, evidence)))
  const [smallestCell, smallestPanel, shortestInterval] = places.map((place, i) =>
    place === null ? null : sizedOf(space, lines[i][place], evidence),
  )
  return {
    asItIs: { design: sizedOf(space, OWN, evidence), ruling },
    smallestCell,
    smallestPanel,
    shortestInterval,
  }
}

export function sizedOf(space: DesignSpace, pick: Picked, evidence: Evidence): Sized {
  const counts = evidence.countsOf(pick)
  const design = atBest(designAt(space, pick))
  const [usual] = wakesOf(design.wake, design.place, space)
  const { panel } = design.supply
  return {
    pick,
    capacity_C: design.supply.pack.capacity_C,
    panel_W: panel === null ? null : panel.maximumPower_V * panel.maximumPower_A,
    interval_s: space.intervals_s[pick.interval],
    reportsPerDay: usual.reportsPerDay,
    survival: survivalOf(counts),
    runs: counts.runs,
    offGrid: offGridSum(design, usual.wakesPerDay),
  }
}

/** The outpost that a pick stands for. */
export function designAt(space: DesignSpace, { pack, panel, interval }: Picked): Outpost {
  const { supply, ...rest } = withInterval(space.outpost, space.intervals_s[interval])
  const sized = space.panels[panel]
  return {
    ...rest,
    supply: {
      ...supply,
      pack: space.packs[pack],
      panel: sized === null ? null : enlarged(sized.panel, sized.times),
    },
  }
}

const enlarged = (panel: Panel, factor: number): Panel => ({
  ...panel,
  shortCircuit_A: times(panel.shortCircuit_A, factor),
  maximumPower_A: times(panel.maximumPower_A, factor),
})

/** No choice was made on these runs. */
const FRESH_RUNS_FROM = 1_000_000

/** The survival of designs over runs that played no part in choosing them. */
export function* confirm(picks: readonly Picked[], runs: number): Study<Share[]> {
  if (picks.length === 0) return []
  const asked: Asked = { picks, from: FRESH_RUNS_FROM, to: FRESH_RUNS_FROM + runs }
  const [counts] = yield [asked]
  return counts.map(survivalOf)
}
