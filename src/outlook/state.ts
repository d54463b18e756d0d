/** What one run carries from step to step, and its accounts. Coulombs at the pack's terminals. */
import type { Plan } from './plan.ts'

export interface State {
  /** Charge in the available well, and in both. */
  available_C: number
  charge_C: number
  /** Share of capacity lost for good. */
  fade: number
  down: boolean
  /** Which row of the thrift table holds. */
  row: number

  in_C: number
  out_C: number
  coulombicLoss_C: number
  selfLoss_C: number
  fadeLoss_C: number
  wakes: number
  missedWakes: number
  downSteps: number
  deaths: number
  /** Smallest open-circuit voltage in hand over what the device needed, in the steps it was up. */
  margin_V: number
  /** Smallest usable state of charge since it was last reset, 0..1. */
  lowestState: number
  /** The step, counted from the last reset, in which the device went down; −1 where it did not. */
  wentDownAt: number
  /** How things stood when it last went down: for naming the cause. */
  fall: Fall
}

export interface Fall {
  head: number
  temperature_C: number
  fade: number
  /** Usable state of charge, 0..1. */
  state: number
  /** The device would still have held up at rest. */
  restHeld: boolean
}

/**
 * A class only for the compiler's sake: copies of one literal of whole numbers keep the shape of whole numbers, and each
 * that is then given a fraction throws the step function's machine code away.
 */
class NoFall implements Fall {
  head = 1
  temperature_C = 20
  fade = 0
  state = 1
  restHeld = false
}

export function initialState(plan: Plan): State {
  return {
    available_C: plan.available * plan.initialCharge_C,
    charge_C: plan.initialCharge_C,
    fade: plan.initialFade,
    down: false,
    row: 0,
    in_C: 0,
    out_C: 0,
    coulombicLoss_C: 0,
    selfLoss_C: 0,
    fadeLoss_C: 0,
    wakes: 0,
    missedWakes: 0,
    downSteps: 0,
    deaths: 0,
    margin_V: Infinity,
    lowestState: 1,
    wentDownAt: -1,
    fall: new NoFall(),
  }
}

/** Charge in less charge out, losses and what is still stored; zero but for rounding. */
export function imbalance_C(plan: Plan, state: State): number {
  const losses = state.coulombicLoss_C + state.selfLoss_C + state.fadeLoss_C
  return plan.initialCharge_C + state.in_C - state.out_C - losses - state.charge_C
}

/** Another state, as `from` stands. */
export function copyOf(plan: Plan, from: State): State {
  const state = initialState(plan)
  const fall = Object.assign(state.fall, from.fall)
  return Object.assign(state, from, { fall })
}
