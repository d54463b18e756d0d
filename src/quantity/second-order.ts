/** What the first-order law leaves out where a model bends over the width of its inputs' uncertainty. */
import type { Estimate } from './estimate.ts'

/** Share of u over which derivatives are taken: the third derivative needs a wide step against rounding. */
const STEP_IN_U = 0.1

/**
 * Variance of second order to add to the first-order u², for independent inputs of symmetric law (JCGM 100, 5.1.2
 * note). Exact for products of independent normal inputs; may be negative. `model` gives one output.
 */
export function secondOrderVariance(
  model: (inputs: readonly number[]) => number,
  inputs: readonly Estimate[],
): number {
  const values = inputs.map(({ value }) => value)
  /** The model with input i moved by m and input j by n steps. */
  const at = (i: number, m: number, j: number, n: number): number => {
    const x = values.slice()
    x[i] += m * STEP_IN_U * inputs[i].u
    x[j] += n * STEP_IN_U * inputs[j].u
    return model(x)
  }
  let sum = 0
  for (let i = 0; i < inputs.length; i++) {
    // Derivatives are scaled by the inputs' u, so that each term of the note is a plain product.
    const first = (at(i, 1, i, 0) - at(i, -1, i, 0)) / (2 * STEP_IN_U)
    for (let j = 0; j < inputs.length; j++) {
      const bend = (m: number): number => at(i, m, j, 1) - 2 * at(i, m, j, 0) + at(i, m, j, -1)
      const mixed =
        (at(i, 1, j, 1) - at(i, 1, j, -1) - at(i, -1, j, 1) + at(i, -1, j, -1)) / (2 * STEP_IN_U) ** 2
      const third = (bend(1) - bend(-1)) / (2 * STEP_IN_U ** 3)
      sum += mixed ** 2 / 2 + first * third
    }
  }
  return sum
}
