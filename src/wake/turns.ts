/** Steps of every n-th wake: which of them meet in one wake, and how often. */

export interface Turn {
  /** Share of all wakes, over the whole cycle after which the turns repeat. */
  readonly share: number
  /** The periods whose turn it is in such a wake; 1 always is. */
  readonly due: ReadonlySet<number>
}

/** Every pattern is looked at, and their number doubles with each period. */
export const MOST_PERIODS = 12
/** Patterns that cannot occur come out as rounding, not as exactly 0. */
const NEVER = 1e-14

/** Periods are not drawn: all runs of a design ask for the same. */
let last: { readonly key: string; readonly turns: readonly Turn[] } | null = null

/**
 * The patterns in which steps of the given periods meet, with exact shares that add up to 1. All counts start
 * together, so that periods 2 and 3 meet in every sixth wake and 2 and 4 in every fourth. Throws RangeError on a period
 * that is no whole number above 0, or on more than twelve different periods.
 */
export function turnsOf(periods: readonly number[]): readonly Turn[] {
  const key = periods.join()
  if (last?.key !== key) last = { key, turns: turnsBetween(periods) }
  return last.turns
}

function turnsBetween(periods: readonly number[]): Turn[] {
  for (const n of periods)
    if (!(Number.isInteger(n) && n >= 1))
      throw new RangeError(`"every" must be a whole number, 1 or more, not ${n}`)
  const distinct = [...new Set(periods)].filter((n) => n > 1)
  if (distinct.length > MOST_PERIODS)
    throw new RangeError(`at most ${MOST_PERIODS} different "every" in one wake, not ${distinct.length}`)

  const chosen = (mask: number) => distinct.filter((_, bit) => mask & (1 << bit))
  // At least these are due in one wake of their least common multiple; exactly these, by inclusion and exclusion.
  const share = Array.from({ length: 1 << distinct.length }, (_, mask) => 1 / chosen(mask).reduce(lcm, 1))
  for (let bit = 0; bit < distinct.length; bit++)
    for (let mask = 0; mask < share.length; mask++)
      if (!(mask & (1 << bit))) share[mask] -= share[mask | (1 << bit)]

  return share.flatMap((s, mask) => (s > NEVER ? [{ share: s, due: new Set([1, ...chosen(mask)]) }] : []))
}

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b))
const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b
