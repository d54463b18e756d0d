/** What `compare FILE` tells: the file as it stands and its variants, side by side. Plain data, as `--json` prints it. */
import type { BreakEven } from '../decisions/break-even.ts'
import type { Differences } from '../decisions/compare-variants.ts'
import type { Outlook } from '../outlook/outlook.ts'

export interface VariantOutlook {
  readonly name: string
  readonly outlook: Outlook
  /** At the pack, best values. */
  readonly wakesPerDay: number
  /** Against the first, run by run; null for the first itself. */
  readonly differences: Differences | null
}

export interface VariantsReport {
  readonly file: string
  readonly title: string
  readonly seed: number
  readonly runs: number
  readonly years: number
  readonly rechargeable: boolean
  /** Where it comes from, in words. */
  readonly weather: string
  readonly variants: readonly VariantOutlook[]
  readonly breakEvens: readonly BreakEven[]
  /** Names of variants that keep every aim. */
  readonly keepAllAims: readonly string[]
}
