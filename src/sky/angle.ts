/** Degrees outside, radians inside. */

export const RAD_PER_DEG = Math.PI / 180

/** The angle turned into 0 (included) to 360 (excluded). */
export function wrap360_deg(angle_deg: number): number {
  const rest = angle_deg % 360
  return rest < 0 ? rest + 360 : rest
}

/** The angle turned into -180 (included) to 180 (excluded). */
export function wrap180_deg(angle_deg: number): number {
  return wrap360_deg(angle_deg + 180) - 180
}
