/**
 * Which measured state is which step of a design. States of a usual wake are set against its steps in order, and the
 * reading of least cost is taken; where another is about as good, that is a doubt, and somebody has to say.
 */
import type { Drain, Step } from '../wake/wake.ts'
import { alignSteps, isCertain } from './match-steps-align.ts'
import { usualWake } from './match-steps-usual.ts'
import type { Analysis } from './states.ts'

/** What the device is doing in a state; `step` and `drain` are indices. */
export type Role =
  | { readonly kind: 'step'; readonly step: number }
  /** Between wakes. */
  | { readonly kind: 'rest' }
  /** Nothing else but this standing drain flows, as with the rest of the device switched off. */
  | { readonly kind: 'drain'; readonly drain: number }
  | { readonly kind: 'none' }

/**
 * For each state its roles at its first, second … visit in a wake; the last of them holds for all further visits. So one
 * level can serve two steps, and a step that is tried again stays one.
 */
export type Roles = readonly (readonly Role[])[]

export interface Doubt {
  /**
   * `ambiguous`: another reading is about as good; `left`: like no step; `unlike`: the step it must be is far off;
   * `clipped`: its current was higher than the instrument showed.
   */
  readonly kind: 'ambiguous' | 'left' | 'unlike' | 'clipped'
  readonly state: number
  /** Steps that it may be. */
  readonly steps: readonly number[]
}

export interface Match {
  readonly roles: Roles
  readonly doubts: readonly Doubt[]
}

/** What the design says that there is, as written; steps in the order in which they are done. */
export interface Expected {
  readonly steps: readonly Step[]
  readonly drains: readonly Drain[]
}

const NONE: Role = { kind: 'none' }
const REST: Role = { kind: 'rest' }
/** Pairs that cost more are more than a factor of 2.5 off in current, or of 5 in duration. */
const UNLIKE = 12

/** `given` roles, by state, are taken as they are; the others are found. */
export function matchSteps(
  analysis: Analysis,
  expected: Expected,
  given: ReadonlyMap<number, readonly Role[]> = new Map(),
): Match {
  const { rest } = analysis.cycles
  const usual = usualWake(analysis)
  const places = usual.filter(({ state }) => !given.has(state) && (rest === null || state > rest))
  const taken = new Set([...given.values()].flat().map((role) => (role.kind === 'step' ? role.step : -1)))
  const free = expected.steps.map((_, k) => k).filter((k) => !taken.has(k))
  const { best, others } = alignSteps(
    places,
    free.map((k) => expected.steps[k]),
  )
  const stepOf = (k: number | null) => (k === null ? null : free[k])
  const roles = analysis.states.map((_, state): readonly Role[] => {
    const said = given.get(state)
    if (said !== undefined) return said
    if (rest !== null && state <= rest) return [REST]
    const found = best.steps.flatMap((k, i) => (places[i].state === state ? [roleOf(stepOf(k))] : []))
    return found.length === 0 ? [NONE] : shortened(found)
  })
  const missed = free.filter((k) => isCertain(expected.steps[k]) && !best.steps.map(stepOf).includes(k))
  const doubts = places.flatMap(({ state }, i): Doubt[] => {
    const may = [best, ...others].map(({ steps }) => stepOf(steps[i]))
    const steps = [...new Set(may)].filter((step) => step !== null)
    if (new Set(may).size > 1) return [{ kind: 'ambiguous', state, steps }]
    if (steps.length === 0) return [{ kind: 'left', state, steps: free }]
    const isShared = best.steps.filter((k) => k === best.steps[i]).length > 1
    // Where a step is missing, one that takes several levels may have taken its level.
    if (missed.length > 0 && isShared) return [{ kind: 'ambiguous', state, steps: [...steps, ...missed] }]
    return best.costs[i] > UNLIKE ? [{ kind: 'unlike', state, steps }] : []
  })
  return { roles, doubts: [...doubts, ...alone(analysis, given, free)] }
}

/** A recording of a single level has no wakes to tell by. */
function alone(
  { states, cycles }: Analysis,
  given: ReadonlyMap<number, readonly Role[]>,
  free: readonly number[],
): Doubt[] {
  if (cycles.rest !== null && cycles.list.length > 0) return []
  return states.flatMap((_, state): Doubt[] =>
    given.has(state) || (cycles.rest !== null && state <= cycles.rest)
      ? []
      : [{ kind: 'ambiguous', state, steps: free }],
  )
}

const roleOf = (step: number | null): Role => (step === null ? NONE : { kind: 'step', step })

/** Without repetitions at the end, which the last role stands for. */
function shortened(roles: readonly Role[]): readonly Role[] {
  const same = (a: Role, b: Role) =>
    a.kind === b.kind && (a.kind !== 'step' || b.kind !== 'step' || a.step === b.step)
  const last = roles.findLastIndex((role) => !same(role, roles[roles.length - 1]))
  return roles.slice(0, last + 2)
}

/** The role of a state at its visit number `visit`, from 0, within a wake. */
export function roleAt(roles: Roles, state: number, visit: number): Role {
  const own = roles[state]
  return own[Math.min(visit, own.length - 1)]
}
