/** The choice between the laws of daily clearness. */
import { bendtLaw } from './clearness-bendt.ts'
import { hollandsHugetLaw } from './clearness-hollands-huget.ts'
import type { ClearnessLaw } from './daily-law.ts'

export type ClearnessLawName = 'bendt' | 'hollands-huget'

/**
 * The law called `name` with the given monthly mean. `floor` bounds the Bendt law from below; Hollands & Huget start
 * at zero and take no notice of it. RangeError where no such law has that mean.
 */
export const clearnessLaw = (name: ClearnessLawName, mean: number, floor: number): ClearnessLaw =>
  name === 'bendt' ? bendtLaw(mean, floor) : hollandsHugetLaw(mean)
