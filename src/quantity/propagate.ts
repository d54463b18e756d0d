/**
 * Law of propagation of uncertainty (JCGM 100:2008): first order, correlated inputs, several outputs at once. Any
 * consistent units; angles as the model takes them.
 */
import { type Correlation, checkCorrelation, checkEstimates, type Estimate } from './estimate.ts'

/** Outputs of a measurement from its inputs, both in fixed order. */
export type Model = (inputs: readonly number[]) => readonly number[]

export interface PropagateOptions {
  /** Between inputs; they are independent where it is missing. */
  readonly correlation?: Correlation
  /** ∂output/∂input, one row an output; by central differences where it is missing. */
  readonly sensitivities?: readonly (readonly number[])[]
}

export interface Propagated {
  /** `dof` is null where u rests on correlated inputs: Welch & Satterthwaite's formula holds for independent ones. */
  readonly outputs: readonly Estimate[]
  /** Between outputs; 0 beside an output without uncertainty. */
  readonly correlation: Correlation
  /** One row an output, one column an input. */
  readonly sensitivities: readonly (readonly number[])[]
}

/** Step of a derivative to each side, in u: within it hardly any model bends. */
const STEP_IN_U = 0.01

/** Least step, relative to the value, that rounding leaves standing. */
const LEAST_STEP = Math.sqrt(Number.EPSILON)

/**
 * Estimates of the outputs and their correlation. Throws RangeError on an input whose u is negative or whose degrees of
 * freedom lie below 1, on a matrix of the wrong shape, on an output or a sensitivity that is not finite, and on
 * correlations that give an output a negative variance.
 */
export function propagate(
  model: Model,
  inputs: readonly Estimate[],
  options: PropagateOptions = {},
): Propagated {
  checkEstimates(inputs)
  const values = model(inputs.map(({ value }) => value))
  const { correlation } = options
  if (correlation) checkCorrelation(correlation, inputs.length)
  const sensitivities = options.sensitivities ?? differentiate(model, inputs, values.length)
  if (sensitivities.length !== values.length || sensitivities.some((row) => row.length !== inputs.length))
    throw new RangeError(`sensitivities need ${values.length} rows of ${inputs.length}`)
  values.forEach((value, k) => {
    if (![value, ...sensitivities[k]].every(Number.isFinite))
      throw new RangeError(`output ${k} is ${value} with the sensitivities ${sensitivities[k].join(', ')}`)
  })
  const parts = sensitivities.map((row) => row.map((c, i) => c * inputs[i].u))
  const covariance = parts.map((a) => parts.map((b) => covarianceOf(a, b, correlation)))
  const outputs = values.map((value, k): Estimate => {
    const u = deviation(covariance[k][k], parts[k])
    return { value, u, dof: effectiveDof(u, parts[k], inputs, correlation) }
  })
  return {
    outputs,
    correlation: covariance.map((row, k) =>
      row.map((c, l) => correlationOf(c, outputs[k].u, outputs[l].u, k === l)),
    ),
    sensitivities,
  }
}

/** ΣΣ a_i r_ij b_j of contributions a = c u (JCGM 100, eq. 13 and 16; between outputs H.9). */
function covarianceOf(
  a: readonly number[],
  b: readonly number[],
  correlation: Correlation | undefined,
): number {
  let sum = 0
  for (let i = 0; i < a.length; i++)
    if (correlation) for (let j = 0; j < b.length; j++) sum += a[i] * correlation[i][j] * b[j]
    else sum += a[i] * b[i]
  return sum
}

function deviation(variance: number, parts: readonly number[]): number {
  const independent = parts.reduce((sum, part) => sum + part * part, 0)
  // Correlations that cancel all uncertainty leave a rounding error of either sign.
  if (Math.abs(variance) <= 1e-12 * independent) return 0
  if (!(variance >= 0))
    throw new RangeError('the correlations contradict each other: they give a negative variance')
  return Math.sqrt(variance)
}

const correlationOf = (covariance: number, u: number, other: number, same: boolean): number => {
  if (same) return 1
  return u === 0 || other === 0 ? 0 : Math.max(-1, Math.min(1, covariance / (u * other)))
}

/** Welch–Satterthwaite (JCGM 100, eq. G.2b). */
function effectiveDof(
  u: number,
  parts: readonly number[],
  inputs: readonly Estimate[],
  correlation: Correlation | undefined,
): number | null {
  let sum = 0
  for (let i = 0; i < parts.length; i++) {
    const { dof } = inputs[i]
    if (parts[i] === 0 || dof === Infinity) continue
    if (dof === null || correlation?.[i].some((r, j) => j !== i && r !== 0 && parts[j] !== 0)) return null
    sum += parts[i] ** 4 / dof
  }
  return sum === 0 ? Infinity : u ** 4 / sum
}

/** Central differences (JCGM 100, 5.1.3 note 2, over a smaller step). */
function differentiate(model: Model, inputs: readonly Estimate[], outputs: number): number[][] {
  const rows = Array.from({ length: outputs }, () => new Array<number>(inputs.length))
  const x = inputs.map(({ value }) => value)
  inputs.forEach(({ value, u }, i) => {
    const step = Math.max(STEP_IN_U * u, LEAST_STEP * Math.abs(value)) || LEAST_STEP
    x[i] = value + step
    const above = model(x.slice())
    const upper = x[i]
    x[i] = value - step
    const below = model(x.slice())
    // The steps as the machine could take them.
    for (let k = 0; k < outputs; k++) rows[k][i] = (above[k] - below[k]) / (upper - x[i])
    x[i] = value
  })
  return rows
}
