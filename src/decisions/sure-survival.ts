/**
 * What a run is sure to survive, or sure not to, without being played: with the same cell and weather, more light on
 * the same glass and fewer wakes never leave less in the cell. That is so while the device keeps to one interval. A
 * thrift table breaks the order (who was poorer in autumn slowed down earlier, and may be the richer one at Christmas),
 * but only ever saves charge; so what survives at the schedule's own interval throughout survives with the table too.
 */
import type { Plan } from '../outlook/plan.ts'
import type { ExpectedWakes } from '../wake/expected-wakes.ts'

/** What one run of a design comes down to, beside the cell and the weather. */
export interface Strain {
  /** Panels of one kind differ in size alone; `times` is that size. */
  readonly kind: number
  readonly times: number
  readonly rows: readonly ExpectedWakes[]
  /** After so many days the flash is worn out. */
  readonly lasts_days: number
}

export type Known = 'survives' | 'fails' | 'unknown'

/** What is known of runs that keep to the schedule's own interval, each by its run and cell. */
export class SureSurvival {
  private readonly survived = new Map<string, Strain[]>()
  private readonly failed = new Map<string, Strain[]>()

  /** Whether the run survives all its winters under `strain`, never slowing down. */
  of(run: number, pack: number, strain: Strain): Known {
    const key = `${run} ${pack}`
    if (this.survived.get(key)?.some((harder) => isNoHarder(strain, harder))) return 'survives'
    if (this.failed.get(key)?.some((easier) => isNoHarder(easier, strain))) return 'fails'
    return 'unknown'
  }

  learn(run: number, pack: number, strain: Strain, survives: boolean): void {
    const key = `${run} ${pack}`
    const all = survives ? this.survived : this.failed
    all.set(key, [...(all.get(key) ?? []), strain])
  }
}

function isNoHarder(a: Strain, b: Strain): boolean {
  const [mine, other] = [a.rows[0], b.rows[0]]
  return (
    a.kind === b.kind &&
    a.times >= b.times &&
    a.lasts_days >= b.lasts_days &&
    mine.pattern === other.pattern &&
    mine.wakesPerStep <= other.wakesPerStep
  )
}

/** Whether slowing down only ever means fewer wakes; those at times of day fall on other hours instead. */
export const onlySaves = ([own, ...slower]: readonly ExpectedWakes[]): boolean =>
  slower.every(
    ({ pattern, wakesPerStep }) =>
      pattern === null && own.pattern === null && wakesPerStep <= own.wakesPerStep,
  )

const SECONDS_PER_DAY = 86_400
/**
 * A full cell must carry the device for so many days. One that is emptied and filled within hours feels the grain of
 * hourly steps, and the order was measured to break there: docs/models/decisions.md.
 */
const LEAST_HELD_days = 3

export function isSteady({ capacity_C, byVoltage, rows, step_s }: Plan): boolean {
  let most_A = 0
  for (let i = 0; i < byVoltage.length; i += 2)
    most_A = Math.max(most_A, byVoltage[i] + (rows[0].wakesPerStep * byVoltage[i + 1]) / step_s)
  return capacity_C >= LEAST_HELD_days * SECONDS_PER_DAY * most_A
}
