/** Where a value lies among the rising, positive values of an axis that is drawn with equal steps. */

/**
 * In steps from the first value, on a line between the logarithms of its neighbours; null where it lies outside the axis
 * by more than half a step, or is no value.
 */
export function placeAmong(values: readonly number[], value: number | null): number | null {
  if (value === null || values.length === 0) return null
  const above = values.findIndex((each) => each >= value)
  if (above > 0) return above - Math.log(values[above] / value) / Math.log(values[above] / values[above - 1])
  const end = above === 0 ? 0 : values.length - 1
  if (values.length === 1) return value === values[0] ? 0 : null
  const step = Math.abs(Math.log(values[end] / values[end === 0 ? 1 : end - 1]))
  const past = Math.log(value / values[end]) / step
  return Math.abs(past) > 0.5 ? null : end + past
}
