/**
 * What matters: which unknowns spread the forecast, what measuring each would narrow, and what mending each part would
 * gain. Life in days, charge as a share 0..1 of what is usable, winters as a share.
 */
import { normalQuantile } from '../numeric/normal.ts'
import { quantileSorted } from '../numeric/quantile.ts'
import { stream } from '../numeric/random.ts'
import { type Estimate, type SobolIndex, sobolIndices } from '../numeric/sobol-indices.ts'
import { atBest } from '../outlook/draw.ts'
import { DAYS } from '../sky/calendar.ts'
import { type MattersInput, mattersInputs } from './matters-inputs.ts'
import { type Mend, mendsOf } from './matters-mends.ts'
import type { Future, MattersProblem, Row } from './matters-rows.ts'

export interface InputMatter extends MattersInput {
  /** Shares of the variance of life, or of the least charge. */
  readonly index: SobolIndex
  /** Shares of the variance of surviving a winter; null where every winter, or none, was survived, and for life. */
  readonly survival: SobolIndex | null
  /** Width of the central 90 % interval that would be left, were this known exactly. */
  readonly leftWidth: number
}

export interface MendMatter extends Pick<Mend, 'part' | 'change'> {
  /** Mean gain of life (days) or of least charge (share), with its 95 % interval, from paired futures. */
  readonly gain: Estimate
  /** Winters gained, as a share of all; null for life. */
  readonly winters: Estimate | null
}

export interface Matters {
  readonly of: 'life' | 'least charge'
  readonly rows: number
  readonly futures: number
  readonly years: number
  /** Futures that outlived the horizon, whose life counts as the horizon. */
  readonly beyond: number
  /** Over the futures of samples A and B. */
  readonly spread: { readonly p5: number; readonly median: number; readonly p95: number }
  readonly survived: number | null
  /** By falling total index; null where every future came out the same. */
  readonly inputs: readonly InputMatter[] | null
  /** By falling gain. */
  readonly mends: readonly MendMatter[]
}

const PURPOSE_BOOTSTRAP = 24
const Z95 = normalQuantile(0.975)

export function whatMatters({ ensemble, rechargeable }: MattersProblem, rows: readonly Row[]): Matters {
  const { outpost, seed, years } = ensemble
  const both = rows.flatMap(({ a, b }) => [a, b])
  const sorted = Float64Array.from(both, ({ value }) => value).sort()
  const spread = {
    p5: quantileSorted(sorted, 0.05),
    median: quantileSorted(sorted, 0.5),
    p95: quantileSorted(sorted, 0.95),
  }
  const inputs = mattersInputs(outpost)
  const indices = (of: (future: Future) => number) =>
    sobolIndices(
      {
        a: Float64Array.from(rows, ({ a }) => of(a)),
        b: Float64Array.from(rows, ({ b }) => of(b)),
        ab: inputs.map((_, i) => Float64Array.from(rows, ({ ab }) => of(ab[i]))),
      },
      stream(seed, 0, PURPOSE_BOOTSTRAP),
    )
  const main = indices(({ value }) => value)
  const survival = rechargeable ? indices(({ survived }) => Number(survived)) : null
  const mends = mendsOf(atBest(outpost)).map(
    ({ part, change }, i): MendMatter => ({
      part,
      change,
      gain: paired(rows.map(({ a, mended }) => mended[i].value - a.value)),
      winters: rechargeable
        ? paired(rows.map(({ a, mended }) => Number(mended[i].survived) - Number(a.survived)))
        : null,
    }),
  )
  return {
    of: rechargeable ? 'least charge' : 'life',
    rows: rows.length,
    futures: rows.length * (2 + inputs.length + mends.length),
    years,
    beyond: rechargeable ? 0 : both.filter(({ value }) => value >= years * DAYS).length,
    spread,
    survived: rechargeable ? both.filter(({ survived }) => survived).length / both.length : null,
    inputs:
      main === null
        ? null
        : inputs
            .map((input, i): InputMatter => {
              const index = main[i]
              // E[Var(Y | X)] = (1 − S) Var(Y): the interval shrinks as the standard deviation does.
              const leftShare = Math.sqrt(1 - Math.min(Math.max(index.first.value, 0), 1))
              return {
                ...input,
                index,
                survival: survival?.[i] ?? null,
                leftWidth: leftShare * (spread.p95 - spread.p5),
              }
            })
            .sort((x, y) => y.index.total.value - x.index.total.value),
    mends: mends.sort(
      (x, y) => (y.winters?.value ?? 0) - (x.winters?.value ?? 0) || y.gain.value - x.gain.value,
    ),
  }
}

/** Mean with its 95 % interval by the normal law; at least two values. */
function paired(gains: readonly number[]): Estimate {
  const n = gains.length
  const value = gains.reduce((sum, gain) => sum + gain, 0) / n
  const squares = gains.reduce((sum, gain) => sum + (gain - value) ** 2, 0)
  const half = Z95 * Math.sqrt(squares / (n - 1) / n)
  return { value, low: value - half, high: value + half }
}
