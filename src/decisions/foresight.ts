/**
 * The most reports that any rule could make under given days of light and air, known in advance: a linear programme over
 * the charge stored, relaxed wherever the engine is stricter, so that no rule can beat it in the engine.
 *
 *   greatest  Σ w_t   with   q_{t+1} = kept_t q_t + gain_t − load_t − w_t · wake_t − spill_t,
 *   floor_t <= q_t <= full,   least <= w_t <= most,   spill_t >= 0.
 *
 * Every report counts the same and a store only loses, so spending as early as the reserve allows is optimal, and two
 * passes solve the programme exactly: backward, the least charge that still carries the device to the end; forward, every
 * wake that leaves so much. (In an optimal plan a wake can always be moved earlier: its charge then neither leaks nor
 * spills.) Coulombs at the pack, one value a step.
 */
export interface Store {
  readonly initial_C: number
  readonly full_C: number
  /** Share of the charge left after a step of self-discharge. */
  readonly kept: Float64Array
  /** What the charger could bring in, and what is drawn whatever happens. */
  readonly gain_C: Float64Array
  readonly load_C: Float64Array
  /** Charge below which the device could not stay up. */
  readonly floor_C: Float64Array
  readonly wake_C: number
  /** Wakes in a step: fewest and most. */
  readonly least: number
  readonly most: number
}

/**
 * The greatest sum of wakes, and whether the device can stay up throughout; where it cannot, null. With `mayStop` it may
 * stop when it likes, at no more than `load_C`: then there is always an answer, and floors and `least` do not count.
 */
export function mostWakes(store: Store, mayStop: boolean): number | null {
  const { kept, gain_C, load_C, floor_C, full_C, wake_C, most } = store
  const steps = kept.length
  const least = mayStop ? 0 : store.least
  const reserve = new Float64Array(steps + 1)
  if (!mayStop)
    for (let t = steps - 1; t >= 0; t--) {
      const needed = (reserve[t + 1] + load_C[t] + least * wake_C - gain_C[t]) / kept[t]
      reserve[t] = Math.max(needed, floor_C[t], 0)
      if (reserve[t] > full_C) return null
    }
  if (store.initial_C < reserve[0]) return null
  let q = store.initial_C
  let wakes = 0
  for (let t = 0; t < steps; t++) {
    const free = kept[t] * q + gain_C[t] - load_C[t] - reserve[t + 1]
    const done = wake_C > 0 ? Math.min(Math.max(free / wake_C, least), most) : most
    wakes += done
    q = Math.min(Math.max(free + reserve[t + 1] - done * wake_C, 0), full_C)
  }
  return wakes
}
