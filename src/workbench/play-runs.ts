/** A chunk of one variant's runs, tallied, with what came of each run by itself. */
import { type Ensemble, playChunk } from '../outlook/ensemble.ts'
import type { RunOutcome } from '../outlook/run.ts'
import type { Tally } from '../outlook/tally.ts'

export interface Runs {
  readonly variant: number
  readonly from: number
  readonly to: number
}

export interface PlayedRuns {
  readonly tally: Tally
  readonly outcomes: readonly RunOutcome[]
}

export function playRuns(ensembles: readonly Ensemble[], { variant, from, to }: Runs): PlayedRuns {
  const outcomes: RunOutcome[] = []
  const tally = playChunk(ensembles[variant], from, to, (_, outcome) => outcomes.push(outcome))
  return { tally, outcomes }
}
