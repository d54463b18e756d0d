/** Which state is which step, as a user writes it: `C = send`, `state 3 = join, send`, `A = rest`, `D = none`. */
import type { Role } from './match-steps.ts'

export interface Names {
  /** By which a reading calls the states, in order. */
  readonly states: readonly string[]
  readonly steps: readonly string[]
  readonly drains: readonly string[]
}

export type GivenRoles =
  | { readonly ok: true; readonly state: number; readonly roles: readonly Role[] }
  /** What is wrong, with what there is instead. */
  | { readonly ok: false; readonly problem: string }

/** Several names, with commas between, are those of the first, second … visit of the state within a wake. */
export function givenRoles(text: string, names: Names): GivenRoles {
  const parts = /^\s*(?:state\s+)?([^\s=]+)\s*=\s*(.+?)\s*$/i.exec(text)
  if (parts === null)
    return {
      ok: false,
      problem: `"${text}" is no state and step; write them as in "${names.states[0]} = rest"`,
    }
  const state = stateOf(parts[1], names.states)
  if (state === null)
    return { ok: false, problem: `the recording has no state ${parts[1]}; it has ${names.states.join(', ')}` }
  const wanted = parts[2].split(',').map((name) => name.trim())
  const roles = wanted.map((name) => roleOf(name, names))
  const stranger = wanted.find((_, k) => roles[k] === null)
  if (stranger !== undefined)
    return {
      ok: false,
      problem: `there is no step "${stranger}"; there are ${[...names.steps, 'rest', ...names.drains, 'none'].join(', ')}`,
    }
  return { ok: true, state, roles: roles.filter((role) => role !== null) }
}

/** By name, or by place from 1, lowest current first. */
function stateOf(text: string, states: readonly string[]): number | null {
  const index = /^\d+$/.test(text)
    ? Number(text) - 1
    : states.findIndex((name) => name.toLowerCase() === text.toLowerCase())
  return index >= 0 && index < states.length ? index : null
}

function roleOf(name: string, { steps, drains }: Names): Role | null {
  const step = placeOf(name, steps)
  if (step >= 0) return { kind: 'step', step }
  const drain = placeOf(name, drains)
  if (drain >= 0) return { kind: 'drain', drain }
  if (/^rest$/i.test(name)) return { kind: 'rest' }
  return /^none$/i.test(name) ? { kind: 'none' } : null
}

const placeOf = (name: string, names: readonly string[]): number =>
  names.findIndex((each) => each.toLowerCase() === name.toLowerCase())
