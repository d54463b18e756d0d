/**
 * What the runs so far say of each design, and more runs where they do not say enough.
 *
 * A design passes when the lower end of the 95 % interval of its survival reaches what is wanted: with 97.5 % confidence.
 * It may pass at two looks only, the first at which a clean sweep would do and the last, so that by Bonferroni's
 * inequality one that is not good enough passes with a probability of at most 5 %. It may be given up at any look: when
 * the upper end falls short, or when not even winning every run that is left could make it pass (curtailed sampling).
 * Giving up errs on the safe side, and is how hopeless designs cost little.
 */
import { wilson } from '../numeric/wilson.ts'
import type { Share } from '../outlook/outlook.ts'
import { NONE, type Picked, type Survived, together } from './common-runs.ts'
import type { Study } from './study.ts'

/**
 * The share of winters survived and its 95 % interval (Wilson). All winters of one run count as a single trial: they
 * share a drawn device, and near the edge of what is enough it is mostly the device that decides. Where winters are less
 * alike than that, the interval is wider than need be.
 */
export function survivalOf({ runs, winters, survived }: Survived): Share {
  if (runs === 0) return { share: 0, low: 0, high: 1 }
  const share = survived / winters
  return { share, ...wilson(share * runs, runs) }
}

/** `undecided`: too close to be proven or refuted in the runs allowed; for a choice it counts as not good enough. */
export type Ruling = 'passes' | 'fails' | 'undecided'

export interface Standard {
  /** Share of winters, or of lives, that must be survived. */
  readonly wanted: number
  /** No design is played more often. */
  readonly mostRuns: number
}

const Z95_SQUARED = 3.8415
/** Looks before and after the first at which a design may pass, in parts of the runs that a clean sweep needs. */
const EARLY_LOOKS = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 3 / 4]
const LATER_LOOKS = [3 / 2, 2, 5 / 2, 3, 7 / 2]

/** So many runs without a single loss put the lower bound at `wanted`: n / (n + z²) for n of n. */
export const runsForCleanSweep = (wanted: number): number =>
  Math.ceil((Z95_SQUARED * wanted) / (1 - wanted)) + 1

export class Evidence {
  private readonly standard: Standard
  private readonly looks: readonly number[]
  private readonly sweep: number
  private readonly counts = new Map<string, Survived>()
  private readonly rulings = new Map<string, Ruling>()

  /** RangeError unless `wanted` lies within 0..1 and the runs allowed suffice for a clean sweep. */
  constructor(standard: Standard) {
    const { wanted, mostRuns } = standard
    if (!(wanted > 0 && wanted < 1))
      throw new RangeError(`a wanted share lies between 0 and 1, not ${wanted}`)
    this.standard = standard
    this.sweep = runsForCleanSweep(wanted)
    if (mostRuns < this.sweep)
      throw new RangeError(`${this.sweep} runs are needed to prove ${wanted} at all; ${mostRuns} are allowed`)
    const between = [...EARLY_LOOKS, 1, ...LATER_LOOKS].map((part) => Math.ceil(part * this.sweep))
    this.looks = [...between.filter((runs) => runs < mostRuns), mostRuns]
  }

  countsOf(pick: Picked): Survived {
    return this.counts.get(keyOf(pick)) ?? NONE
  }

  /** A ruling on one design, with no more runs than it needs. */
  *judge(pick: Picked): Study<Ruling> {
    for (;;) {
      const known = this.rulings.get(keyOf(pick))
      if (known !== undefined) return known
      const from = this.countsOf(pick).runs
      const to = this.looks.find((look) => look > from) ?? from
      const [[more]] = yield [{ picks: [pick], from, to }]
      // Of two studies that ask for the same runs at once, the first has told us already.
      if (this.countsOf(pick).runs === from) this.learn(pick, more, to)
    }
  }

  private learn(pick: Picked, more: Survived, runs: number): void {
    const key = keyOf(pick)
    const all = together(this.countsOf(pick), more)
    this.counts.set(key, all)
    const { share, low, high } = survivalOf(all)
    const { wanted, mostRuns } = this.standard
    const atBest = wilson(share * runs + mostRuns - runs, mostRuns).low
    if (high < wanted) this.rulings.set(key, 'fails')
    else if (low >= wanted && (runs === this.sweep || runs === mostRuns)) this.rulings.set(key, 'passes')
    else if (runs === mostRuns || atBest < wanted) this.rulings.set(key, 'undecided')
  }
}

const keyOf = ({ pack, panel, interval }: Picked): string => `${pack} ${panel} ${interval}`
