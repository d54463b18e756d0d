/** What a built-in place is known by. */

export interface BuiltInPlace {
  readonly name: string
  readonly latitude_deg: number
  readonly longitude_deg: number
  readonly elevation_m: number
  /** Standard time, hours ahead of UTC. */
  readonly zone_h: number
  /** Hours of sunshine in each month, January first. */
  readonly sunshine_h: readonly number[]
  readonly temperature_C: readonly number[]
  /** Mean daily maximum less mean daily minimum. */
  readonly dailyRange_K: readonly number[]
  readonly source: 'from memory'
}
