/** A chunk of one variant's runs, tallied, with what came of each run by itself. */
import { type ChunkPlayer, chunkPlayer, type Ensemble } from '../outlook/ensemble.ts'
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

/** The player of several ensembles, each prepared when it is first asked for. */
export function runsPlayer(ensembles: readonly Ensemble[]): (runs: Runs) => PlayedRuns {
  const players: ChunkPlayer[] = []
  return ({ variant, from, to }) => {
    players[variant] ??= chunkPlayer(ensembles[variant])
    const outcomes: RunOutcome[] = []
    const tally = players[variant](from, to, (_, outcome) => outcomes.push(outcome))
    return { tally, outcomes }
  }
}
