/**
 * Random events beside an alarm that fires on a tick: clock minutes, or a fixed grid. Where in a tick the device goes
 * to rest decides how long it waits, so the long-run rate needs the stationary law of that phase. Seconds.
 *
 * Method: the flow of wakes by phase as masses on equal cells, marched through one tick after another until it repeats.
 * Each cell is treated exactly for the exponential wait; only the spread within a cell is taken as even.
 */
import type { Length } from './duration-law.ts'

const CELLS = 240
const STANDS_STILL = 1e-10
const MOST_ROUNDS = 500

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
  const woken = -Math.expm1(-events_per_s * cell_s)
  // Of what goes to rest evenly over a cell, the share that is still at rest at its end.
  const keepEven = woken / (events_per_s * cell_s)
  const { shift, landing, landingWoken } = phasesOf(law, tick_s, events_per_s)
  const tick = Math.exp(-events_per_s * tick_s)
  // Who waits for a later tick is woken by events in each tick before: a geometric series.
  const laterTicks =
    changes === 1
      ? 0
      : Math.expm1(-events_per_s * tick_s * (changes - 1)) / Math.expm1(-events_per_s * tick_s)
  // Work that begins and ends in one cell feeds that same cell once more.
  const feedback = 1 - shift[0] * (1 - keepEven)

  // Shares of all wakes; `waiting` go past the first tick to a later one.
  let alarms = 1
  let byEvent = 0
  let waiting = 0
  const arriving = new Float64Array(CELLS)
  const events = new Float64Array(CELLS)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let resting = 0
    let moved = 0
    let begunInAll = 0
    for (let c = 0; c < CELLS; c++) {
      const later = waiting * laterTicks * keep ** c * woken
      const begun =
        (later + resting * woken + arriving[c] * (1 - keepEven) + alarms * landingWoken[c]) / feedback
      resting = resting * keep + (arriving[c] + shift[0] * begun) * keepEven
      resting += alarms * (landing[c] - landingWoken[c])
      arriving[c] = 0
      for (let k = 1; k < CELLS; k++) if (shift[k] > 0) arriving[(c + k) % CELLS] += shift[k] * begun
      moved += Math.abs(begun - events[c])
      begunInAll += begun
      events[c] = begun
    }
    const due = resting * tick ** (changes - 1)
    const wakes = due + begunInAll
    alarms = due / wakes
    waiting = resting / wakes
    for (let c = 0; c < CELLS; c++) {
      arriving[c] /= wakes
      events[c] /= wakes
    }
    byEvent = begunInAll / wakes
    if (moved < STANDS_STILL * begunInAll) break
  }
  const work_s = law.reduce((sum, { duration_s, probability }) => sum + probability * duration_s, 0)
  // Events come at an even rate while at rest, so their share of wakes tells the mean rest.
  const rest_s = byEvent / events_per_s
  return { perSecond: 1 / (work_s + rest_s), alarmsPerSecond: alarms / (work_s + rest_s) }
}

/**
 * The work's duration as a move in phase: `shift` in cells for a wake that began anywhere in a cell; for one that began
 * on the tick, `landing` is where its work ends and `landingWoken` what of that an event wakes before the cell ends.
 */
function phasesOf(law: readonly Length[], tick_s: number, events_per_s: number) {
  const shift = new Float64Array(CELLS)
  const landing = new Float64Array(CELLS)
  const landingWoken = new Float64Array(CELLS)
  for (const { duration_s, probability } of law) {
    const cells = ((duration_s % tick_s) / tick_s) * CELLS
    const whole = Math.min(Math.floor(cells), CELLS - 1)
    const part = cells - whole
    shift[whole] += probability * (1 - part)
    shift[(whole + 1) % CELLS] += probability * part
    landing[whole] += probability
    landingWoken[whole] -= probability * Math.expm1((-events_per_s * (1 - part) * tick_s) / CELLS)
  }
  return { shift, landing, landingWoken }
}
