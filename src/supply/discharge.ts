/**
 * One full cell under a repeated load pattern at one temperature, in fine steps, until a load pulls it below the end
 * voltage or it is empty: how battery standards test cells. Seconds, volts, coulombs, joules, °C.
 *
 * The wells move in closed form at the current of the step's middle (midpoint rule, second order); the end is closed in
 * on by halving the step.
 */
import { openCircuit_V, resistance_Ohm } from './cell.ts'
import { afterCurrent, afterLosses, type CellState, restedState, usableAt } from './cell-state.ts'
import { type Load, type OperatingPoint, operatingPoint } from './load.ts'
import type { Cell } from './supply.ts'

/** `load` null: the cell rests. */
export interface Phase {
  readonly load: Load | null
  readonly duration_s: number
}

export interface DischargeTest {
  readonly cell: Cell
  /** Gone through in order, again and again. */
  readonly pattern: readonly Phase[]
  readonly temperature_C: number
  /** The test ends when the loaded voltage falls to this, or to the cell's own cut-off where that is higher. */
  readonly end_V: number
  /** Share of capacity lost beforehand, 0 to below 1. */
  readonly fade: number
  /** The test is given up when the pattern comes to a new phase after this time. */
  readonly longest_s: number
}

type End = 'voltage' | 'empty' | 'time'

export interface Discharge {
  readonly endedBy: End
  readonly elapsed_s: number
  /** Time under load. */
  readonly underLoad_s: number
  readonly delivered_C: number
  readonly delivered_J: number
  /** Turned to heat in the resistance. */
  readonly heat_J: number
  /** Self-discharge, and charge that stood in capacity lost to age. */
  readonly lost_C: number
  readonly left_C: number
}

/** A step takes at most this share of the capacity. */
const FINENESS = 1 / 1000
/** The end is found to this share of such a step. */
const END_FINENESS = 1e-6

/** Discharges the cell. Throws RangeError on a pattern without a load that lasts. */
export function discharge(test: DischargeTest): Discharge {
  if (!test.pattern.some((phase) => phase.load !== null && phase.duration_s > 0))
    throw new RangeError('a discharge needs a pattern with at least one load that lasts')
  const run = new Run(test)
  while (true)
    for (const { load, duration_s } of test.pattern) {
      const end = load === null ? run.rest(duration_s) : run.work(load, duration_s)
      if (end !== null) return run.result(end)
      if (run.elapsed_s >= test.longest_s) return run.result('time')
    }
}

/** The cell on the bench, and the accounts kept of it. */
class Run {
  elapsed_s = 0
  private readonly cell: Cell
  private readonly temperature_C: number
  private readonly end_V: number
  private readonly fine_C: number
  private state: CellState
  private underLoad_s = 0
  private delivered_C = 0
  private delivered_J = 0
  private heat_J = 0
  private lost_C = 0

  constructor(test: DischargeTest) {
    this.cell = test.cell
    this.temperature_C = test.temperature_C
    this.end_V = Math.max(test.end_V, test.cell.cutOff_V)
    this.fine_C = FINENESS * test.cell.capacity_C
    this.state = restedState(test.cell, 1, test.fade)
  }

  rest(duration_s: number): null {
    this.settle(afterCurrent(this.cell, this.state, 0, duration_s), 0, duration_s)
    return null
  }

  /** Works until the phase is over (null) or the cell gives out. */
  work(load: Load, duration_s: number): End | null {
    let remaining_s = duration_s
    let limit_s = Infinity
    while (remaining_s > 0) {
      const before = this.point(load, this.state)
      if (before === null) return 'voltage'
      const alreadyOver = this.endOf(this.state, before)
      if (alreadyOver !== null) return alreadyOver

      const fine_s = this.fine_C / before.current_A
      const step_s = Math.min(remaining_s, fine_s, limit_s)
      const halfway = afterCurrent(this.cell, this.state, before.current_A, step_s / 2)
      const middle = this.point(load, halfway) ?? before
      const after = afterCurrent(this.cell, this.state, middle.current_A, step_s)
      const end = this.endOf(after, this.point(load, after))
      if (end !== null && step_s > END_FINENESS * fine_s) {
        limit_s = step_s / 2
        continue
      }
      const out_C = middle.current_A * step_s
      this.delivered_C += out_C
      this.delivered_J += out_C * middle.voltage_V
      this.heat_J += out_C * middle.drop_V
      this.underLoad_s += step_s
      this.settle(after, out_C, step_s)
      if (end !== null) return end
      remaining_s -= step_s
    }
    return null
  }

  result(endedBy: End): Discharge {
    const { elapsed_s, underLoad_s, delivered_C, delivered_J, heat_J, lost_C } = this
    const left_C = this.state.charge_C
    return { endedBy, elapsed_s, underLoad_s, delivered_C, delivered_J, heat_J, lost_C, left_C }
  }

  private point(load: Load, at: CellState): OperatingPoint | null {
    const usable = usableAt(this.cell, at, this.temperature_C)
    const open_V = openCircuit_V(this.cell, usable, this.temperature_C)
    return operatingPoint(load, open_V, resistance_Ohm(this.cell, usable, this.temperature_C, at.fade))
  }

  private endOf(at: CellState, point: OperatingPoint | null): End | null {
    if (usableAt(this.cell, at, this.temperature_C) <= 0) return 'empty'
    return point === null || point.voltage_V <= this.end_V ? 'voltage' : null
  }

  private settle(moved: CellState, out_C: number, duration_s: number): void {
    const after = afterLosses(this.cell, moved, out_C, this.temperature_C, duration_s)
    this.lost_C += moved.charge_C - after.charge_C
    this.elapsed_s += duration_s
    this.state = after
  }
}
