/**
 * Random events beside an alarm that fires on a tick: clock minutes, or a fixed grid. Where in a tick the device goes
 * to rest decides how long it waits, so the long-run rate needs the stationary law of that phase. Seconds.
 *
 * Method: the phase law as masses on equal cells, advanced from wake to wake until it stands still. Each cell is
 * treated exactly for the exponential wait; only the spread within a cell is taken as even.
 */
import type { Length } from './duration-law.ts'

const CELLS = 240
const STANDS_STILL = 1e-10
const MOST_ROUNDS = 2000

export interface GridRate {
  readonly perSecond: number
  /** Wakes by the alarm alone. */
  readonly alarmsPerSecond: number
}

/**
 * The alarm fires on the `changes`-th tick after the work's end; an event before it wakes at once, and the alarm is set
 * anew after its work. `events_per_s` must be above 0.
 */
export function gridRate(
  tick_s: number,
  changes: number,
  law: readonly Length[],
  events_per_s: number,
): GridRate {
  const cell_s = tick_s / CELLS
  const keep = Math.exp(-events_per_s * cell_s)
  // Of what goes to rest evenly over a cell, the share that is still at rest at its end.
  const keepEven = -Math.expm1(-events_per_s * cell_s) / (events_per_s * cell_s)
  const { shift, landing, landingKept } = phasesOf(law, tick_s, events_per_s)
  const tick = Math.exp(-events_per_s * tick_s)
  const laterTicks = changes === 1 ? 0 : (1 - tick ** (changes - 1)) / (1 - tick)

  let alarms = 1
  let events = new Float64Array(CELLS)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const arriving = shifted(events, shift)
    const next = new Float64Array(CELLS)
    let resting = 0
    for (let c = 0; c < CELLS; c++) {
      const left = resting * keep + arriving[c] * keepEven + alarms * landingKept[c]
      next[c] = resting + arriving[c] + alarms * landing[c] - left
      resting = left
    }
    // Those left at the first tick face it again and again until their alarm: a geometric series over the ticks.
    for (let c = 0; c < CELLS; c++) next[c] += resting * laterTicks * keep ** c * (1 - keep)
    const nextAlarms = resting * tick ** (changes - 1)
    const moved = Math.abs(nextAlarms - alarms) + next.reduce((sum, x, c) => sum + Math.abs(x - events[c]), 0)
    alarms = nextAlarms
    events = next
    if (moved < STANDS_STILL) break
  }
  const work_s = law.reduce((sum, { duration_s, probability }) => sum + probability * duration_s, 0)
  // Events come at an even rate while at rest, so their share of wakes tells the mean rest.
  const rest_s = events.reduce((sum, x) => sum + x, 0) / events_per_s
  return { perSecond: 1 / (work_s + rest_s), alarmsPerSecond: alarms / (work_s + rest_s) }
}

/**
 * The work's duration as a move in phase: `shift` in cells for a wake that began anywhere in a cell; for one that began
 * on the tick, `landing` is where its work ends and `landingKept` what of that still rests at the end of the cell.
 */
function phasesOf(law: readonly Length[], tick_s: number, events_per_s: number) {
  const shift = new Float64Array(CELLS)
  const landing = new Float64Array(CELLS)
  const landingKept = new Float64Array(CELLS)
  for (const { duration_s, probability } of law) {
    const cells = ((duration_s % tick_s) / tick_s) * CELLS
    const whole = Math.min(Math.floor(cells), CELLS - 1)
    const part = cells - whole
    shift[whole] += probability * (1 - part)
    shift[(whole + 1) % CELLS] += probability * part
    landing[whole] += probability
    landingKept[whole] += probability * Math.exp((-events_per_s * (1 - part) * tick_s) / CELLS)
  }
  return { shift, landing, landingKept }
}

/** Cyclic convolution: every mass moved on by the law of the shift. */
function shifted(masses: Float64Array, shift: Float64Array): Float64Array {
  const out = new Float64Array(CELLS)
  for (let k = 0; k < CELLS; k++)
    if (shift[k] > 0) for (let c = 0; c < CELLS; c++) out[(c + k) % CELLS] += shift[k] * masses[c]
  return out
}
