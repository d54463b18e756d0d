/** One thread of a study of designs: the space comes once, with the thread; then runs of some designs are asked for. */
import { workerData } from 'piscina'
import { type DesignSpace, playerOf } from '../decisions/common-runs.ts'

export const work = playerOf(workerData as DesignSpace)
