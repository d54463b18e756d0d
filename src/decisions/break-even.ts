/**
 * When sleeping deeper pays: a deeper sleep draws less at rest and takes more to wake from, so it pays only where rests
 * are long. Coulombs and amperes at the pack; a rest is the time between the end of one wake and the start of the next.
 */
import { quantileSorted } from '../numeric/quantile.ts'
import { atBest, drawn, probabilitiesOf } from '../outlook/draw.ts'
import { extraByStep_C, packCurrent_A, standing } from '../outlook/load.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { openCircuit_V } from '../supply/cell.ts'
import { packAsCell } from '../supply/cell-pack.ts'
import { momentsOf } from '../wake/moments.ts'

/** What one strategy takes: through a rest, and for one wake as a whole, standing drains included. */
export interface Strategy {
  readonly name: string
  readonly outpost: Outpost
}

export interface BreakEven {
  /** The one that draws less at rest, at best values. */
  readonly deeper: string
  readonly lighter: string
  /** The rest above which the deeper one takes less, at best values; 0 where it always does, null where it never does. */
  readonly rest_s: number | null
  /** Over the tolerances: the middle 90 % of it, null where it never pays. */
  readonly low_s: number | null
  readonly high_s: number | null
  /** Share of draws in which the deeper one pays at any rest, and in which it never does. */
  readonly always: number
  readonly never: number
}

interface Takes {
  readonly rest_A: number
  readonly wake_C: number
}

const DRAWS = 1000

/** Every pair of strategies that differ at rest; draws are common to both, so what they share does not blur the answer. */
export function breakEvens(strategies: readonly Strategy[], seed: number): BreakEven[] {
  const best = strategies.map(({ outpost }) => takesOf(atBest(outpost)))
  const draws = strategies.map(({ outpost }) =>
    Array.from({ length: DRAWS }, (_, k) => takesOf(drawn(outpost, probabilitiesOf(seed, k)))),
  )
  return strategies.flatMap((_, a) =>
    strategies.slice(a + 1).flatMap((_, after): BreakEven[] => {
      const b = a + 1 + after
      if (best[a].rest_A === best[b].rest_A) return []
      const [deeper, lighter] = best[a].rest_A < best[b].rest_A ? [a, b] : [b, a]
      const rests = draws[deeper]
        .map((takes, k) => breakEvenRest_s(takes, draws[lighter][k]))
        .sort((x, y) => x - y)
      const share = (holds: (rest_s: number) => boolean) => rests.filter(holds).length / DRAWS
      return [
        {
          deeper: strategies[deeper].name,
          lighter: strategies[lighter].name,
          rest_s: finite(breakEvenRest_s(best[deeper], best[lighter])),
          low_s: finite(quantileSorted(rests, 0.05)),
          high_s: finite(quantileSorted(rests, 0.95)),
          always: share((rest_s) => rest_s === 0),
          never: share((rest_s) => rest_s === NEVER),
        },
      ]
    }),
  )
}

/** A number to sort by and interpolate towards, longer than anything rests. */
const NEVER = Number.MAX_VALUE

/** The rest at which both take the same: (Q2 − Q1)/(I1 − I2). */
function breakEvenRest_s(deeper: Takes, lighter: Takes): number {
  const dearer_C = deeper.wake_C - lighter.wake_C
  const saved_A = lighter.rest_A - deeper.rest_A
  if (dearer_C <= 0 && saved_A >= 0) return 0
  return saved_A > 0 ? dearer_C / saved_A : NEVER
}

const finite = (rest_s: number): number | null => (rest_s > LONGEST_REST_s ? null : rest_s)
/** A century: beyond it a rest is no answer to anything. */
const LONGEST_REST_s = 100 * 365 * 86_400

/** With the cell half full at 20 °C. */
function takesOf({ wake, supply }: Outpost<number>): Takes {
  const cell = packAsCell(supply.pack)
  const open_V = openCircuit_V(cell, 0.5, 20)
  const moments = momentsOf(wake)
  const rest_A = packCurrent_A(supply, standing(wake, supply), wake.rest_A, open_V)
  const extra_C = extraByStep_C(wake, supply, moments, () => open_V).reduce((sum, extra) => sum + extra, 0)
  return { rest_A, wake_C: extra_C + rest_A * moments.total.duration_s }
}
