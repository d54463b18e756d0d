/**
 * How many levels there are, and where: the best division of stretches, sorted by level, into neighbouring groups. Exact
 * by dynamic programming as all such groups are runs of the sorted values (Fisher 1958, J. Am. Stat. Assoc. 53, 789); the
 * number of groups by the classification likelihood with mixing shares and the criterion of Schwarz (Biernacki, Celeux &
 * Govaert 2000). A level that drifts, or varies from wake to wake, has a wide group of its own and stays one level.
 */
import { quantileSorted } from '../numeric/quantile.ts'

export interface Level {
  readonly y: number
  /** Standard deviation of a sample about `y`, noise and drift together. */
  readonly deviation: number
  /** Stretches in the group. */
  readonly stretches: number
}

export interface LevelSample {
  /** Mean of a stretch on the stabilised scale, and variance of its samples about it. */
  readonly y: number
  readonly variance: number
  /** Deviations that levels of one state may differ by without being told apart: noise of a mean, and drift. */
  readonly spread: number
}

interface Group {
  readonly count: number
  readonly spread: number
  readonly sum: number
  readonly square: number
}

interface Bin extends Group {
  readonly members: LevelSample[]
}

const MOST_BINS = 400
const FINEST_BIN = 0.25
/** Mean, spread and share of a group. */
const PARAMETERS = 3
const LEAST_DEVIATION = 1
/** Standard deviation of normal values over the median of their magnitudes. */
const MEDIAN_TO_DEVIATION = 1.4826

/** Levels in rising order. Throws RangeError on no stretches. */
export function levelsOf(stretches: readonly LevelSample[]): Level[] {
  if (stretches.length === 0) throw new RangeError('no stretches to find levels in')
  const bins = intoBins(stretches)
  const total = stretches.length
  const best = new Float64Array(bins.length + 1).fill(Number.POSITIVE_INFINITY)
  const last = new Int32Array(bins.length + 1)
  best[0] = 0
  for (let end = 1; end <= bins.length; end++) {
    let group: Group = { count: 0, spread: 0, sum: 0, square: 0 }
    for (let start = end - 1; start >= 0; start--) {
      group = joined(group, bins[start])
      const cost = best[start] + groupCost(group, total)
      if (cost < best[end]) {
        best[end] = cost
        last[end] = start
      }
    }
  }
  const levels: Level[] = []
  for (let end = bins.length; end > 0; end = last[end]) {
    levels.push(levelOf(bins.slice(last[end], end).flatMap(({ members }) => members)))
  }
  return levels.reverse()
}

/** Medians, so that a stretch that strayed into the group does not widen it. */
function levelOf(members: readonly LevelSample[]): Level {
  const y = median(members.map((member) => member.y))
  const within = median(members.map(({ variance }) => variance))
  const between = MEDIAN_TO_DEVIATION * median(members.map((member) => Math.abs(member.y - y)))
  return {
    y,
    deviation: Math.max(Math.hypot(Math.sqrt(within), between), LEAST_DEVIATION),
    stretches: members.length,
  }
}

function median(values: readonly number[]): number {
  return quantileSorted(Float64Array.from(values).sort(), 0.5)
}

/** −2 log of the classification likelihood of a group, plus what its parameters cost. */
function groupCost(group: Group, total: number): number {
  const { count } = group
  return (
    count * Math.log((group.spread / count) ** 2 + spread(group)) -
    2 * count * Math.log(count / total) +
    PARAMETERS * Math.log(total)
  )
}

const spread = ({ count, sum, square }: Group): number => Math.max(square / count - (sum / count) ** 2, 0)

function joined(a: Group, b: Group): Group {
  return {
    count: a.count + b.count,
    spread: a.spread + b.spread,
    sum: a.sum + b.sum,
    square: a.square + b.square,
  }
}

function intoBins(stretches: readonly LevelSample[]): Bin[] {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const { y } of stretches) {
    low = Math.min(low, y)
    high = Math.max(high, y)
  }
  const width = Math.max((high - low) / MOST_BINS, FINEST_BIN)
  const bins = new Map<number, LevelSample[]>()
  for (const stretch of stretches) {
    const key = Math.floor((stretch.y - low) / width)
    const members = bins.get(key)
    if (members) members.push(stretch)
    else bins.set(key, [stretch])
  }
  return [...bins.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, members]) => ({ members, ...members.map(groupOfOne).reduce(joined) }))
}

const groupOfOne = ({ y, spread }: LevelSample): Group => ({ count: 1, spread, sum: y, square: y * y })
