/** What the two ways of playing a run in haste have in common: single winters with a panel, whole lives without. */
import type { Outpost } from '../outpost/outpost.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'
import type { AimContext } from './aims.ts'
import type { Ensemble } from './ensemble.ts'
import type { Plan } from './plan.ts'
import type { RunSettings } from './run.ts'
import type { Tally } from './tally.ts'
import type { Walk } from './walk.ts'

/** `years` as the full outlook would play. */
export interface WhatIfChoices extends Pick<Ensemble, 'runs' | 'years' | 'seed' | 'cutDay' | 'calendarYear'> {
  readonly title: string
}

/** A drawn design as one run plays it. */
export interface Drawn {
  readonly run: number
  readonly design: Outpost<number>
  readonly rows: readonly ExpectedWakes[]
  readonly plan: Plan
  readonly flashLife_days: number
}

/** A run as it is played; see RunSettings. */
export interface Paced extends Pick<RunSettings, 'flashLife_days' | 'isJudged'> {
  readonly walk: Walk
}

export interface Pace {
  /** Years of each run, and the steps in which its wakes are counted. */
  readonly years: number
  readonly stepsPerHour: number
  walk(run: Drawn): Paced
  /** Where runs of this kind are too short to see whether aims of years are kept. */
  bounds(tally: Tally): Pick<AimContext, 'bounds'>
}
