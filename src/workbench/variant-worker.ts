/** One thread of a comparison: the ensembles of all variants come once, with the thread; then chunks of their runs. */
import { workerData } from 'piscina'
import type { Ensemble } from '../outlook/ensemble.ts'
import { type PlayedRuns, type Runs, runsPlayer } from './play-runs.ts'

const play = runsPlayer(workerData as readonly Ensemble[])

export const work = (runs: Runs): PlayedRuns => play(runs)
