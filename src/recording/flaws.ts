/** The list of what is wrong with a recording: the first of each kind in full, all of them in totals. */
import { FLAWS_KEPT, type Flaw, type FlawKind, type FlawTotal } from './recording.ts'

type Written<T> = { -readonly [K in keyof T]: T[K] }

export class FlawLog {
  private readonly kept: Written<Flaw>[] = []
  private readonly sums = new Map<FlawKind, Written<FlawTotal>>()
  private readonly latest = new Map<FlawKind, Written<Flaw>>()

  /** A flaw that continues the latest one of its kind, sample by sample, lengthens it. */
  add(flaw: Flaw): void {
    const sum = this.sums.get(flaw.kind) ?? { kind: flaw.kind, places: 0, count: 0, duration_s: 0 }
    this.sums.set(flaw.kind, sum)
    sum.count += flaw.count
    sum.duration_s += flaw.duration_s
    const last = this.latest.get(flaw.kind)
    const continues =
      flaw.kind === 'not-a-number' && last?.sample != null && last.sample + last.count === flaw.sample
    if (last && continues) {
      last.count += flaw.count
      last.duration_s += flaw.duration_s
      return
    }
    sum.places++
    const own = { ...flaw }
    this.latest.set(flaw.kind, own)
    if (sum.places <= FLAWS_KEPT) this.kept.push(own)
  }

  /** Counts flaws that are too many to be listed. */
  addToTotal(more: FlawTotal): void {
    const sum = this.sums.get(more.kind)
    if (!sum) return
    sum.places += more.places
    sum.count += more.count
    sum.duration_s += more.duration_s
  }

  /** Flaws known by line alone come first, the others in order of sample. */
  list(): Flaw[] {
    return this.kept.toSorted((a, b) => (a.sample ?? -1) - (b.sample ?? -1))
  }

  totals(): FlawTotal[] {
    return [...this.sums.values()]
  }
}
