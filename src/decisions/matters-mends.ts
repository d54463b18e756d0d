/** Mends: each part of the budget made smaller, as a change to a drawn design. */
import type { Outpost } from '../outpost/outpost.ts'
import type { Step } from '../wake/wake.ts'

export interface Mend {
  /** As in the budget. */
  readonly part: string
  readonly change: 'half as long' | 'half the current' | 'taken away'
  readonly apply: (design: Outpost<number>) => Outpost<number>
}

/** Steps half as long, rest at half its current, drains and idle currents taken away; what draws nothing is left out. */
export function mendsOf(best: Outpost<number>): Mend[] {
  const { wake } = best
  const steps = (list: 'steps' | 'boot'): Mend[] =>
    wake[list].map(({ name }, i) => ({
      part: name,
      change: 'half as long',
      apply: (design) => {
        const changed = design.wake[list].map((step, k) => (k === i ? halfAsLong(step) : step))
        return { ...design, wake: { ...design.wake, [list]: changed } }
      },
    }))
  const mends: Mend[] = [...(wake.resume === 'restart' ? steps('boot') : []), ...steps('steps')]
  if (wake.rest_A > 0)
    mends.push({
      part: 'rest',
      change: 'half the current',
      apply: (design) => ({ ...design, wake: { ...design.wake, rest_A: design.wake.rest_A / 2 } }),
    })
  for (const [i, { name }] of wake.standing.entries())
    mends.push({
      part: name,
      change: 'taken away',
      apply: (design) => {
        const standing = design.wake.standing.filter((_, k) => k !== i)
        return { ...design, wake: { ...design.wake, standing } }
      },
    })
  for (const { part, where } of IDLE) {
    if (idleAt(best, where) > 0)
      mends.push({ part, change: 'taken away', apply: (design) => withoutIdle(design, where) })
  }
  return mends
}

/** What the supply draws by itself. */
const IDLE = [
  { part: 'regulator, idle', where: ['regulator', 'quiescent_A'] },
  { part: 'capacitor leakage', where: ['capacitor', 'leakage_A'] },
  { part: 'charger at night', where: ['charger', 'quiescent_A'] },
] as const
type Idle = (typeof IDLE)[number]['where']

function idleAt({ supply }: Outpost<number>, [part, field]: Idle): number {
  const holder: Readonly<Record<string, unknown>> = { ...supply[part] }
  const current_A = holder[field]
  return typeof current_A === 'number' ? current_A : 0
}

function withoutIdle(design: Outpost<number>, [part, field]: Idle): Outpost<number> {
  const { supply } = design
  return { ...design, supply: { ...supply, [part]: { ...supply[part], [field]: 0 } } }
}

function halfAsLong(step: Step<number>): Step<number> {
  const { retries, peak } = step
  const duration_s = step.duration_s / 2
  return {
    ...step,
    duration_s,
    peak: peak === null ? null : { ...peak, duration_s: Math.min(peak.duration_s, duration_s) },
    retries: retries === null ? null : { ...retries, failedDuration_s: retries.failedDuration_s / 2 },
  }
}
