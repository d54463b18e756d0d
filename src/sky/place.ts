/**
 * Where the device stands and what the sky does there, as plain data. Degrees; longitude east positive; azimuth
 * clockwise from north (180 = south); irradiation in J/m² a day on the horizontal; temperatures in °C.
 */
import type { Uncertain } from '../quantity/uncertain.ts'

export interface HorizonPoint {
  readonly azimuth_deg: number
  readonly elevation_deg: number
}

/** Twelve months of a place, enough for the generator; index 0 is January. */
export interface Climate {
  /** Monthly mean clearness index (daily horizontal irradiation over extraterrestrial). */
  readonly clearness: readonly number[]
  readonly temperature_C: readonly number[]
  /** Mean daily maximum less mean daily minimum. */
  readonly dailyRange_K: readonly number[]
  /** Smallest daily clearness there is (Bendt's lower bound); 0.05 unless fitted. */
  readonly floor: number
  /** Lag-one autocorrelation of the daily clearness; 0.29 unless fitted. */
  readonly persistence: number
  /** Standard deviation of a day's mean temperature about the month's, and its day-to-day correlation. */
  readonly dailyDeviation_K: number
  readonly temperaturePersistence: number
}

/**
 * A measured or typical year of 365 days. Hour h covers local standard time h..h+1 of the year from 1 January;
 * irradiances in W/m² are means over that hour.
 */
export interface WeatherYear {
  readonly title: string
  readonly latitude_deg: number
  readonly longitude_deg: number
  readonly elevation_m: number
  readonly zone_h: number
  readonly global_W_m2: Float64Array
  readonly beamNormal_W_m2: Float64Array
  readonly diffuse_W_m2: Float64Array
  readonly temperature_C: Float64Array
}

export interface Place<N = Uncertain> {
  readonly latitude_deg: number
  readonly longitude_deg: number
  readonly elevation_m: number
  /** Hours ahead of UTC of the standard time in which the weather is counted. */
  readonly zone_h: number
  readonly tilt_deg: N
  readonly azimuth_deg: N
  /** Sorted by azimuth, read as a ring; empty for a free horizon. */
  readonly horizon: readonly HorizonPoint[]
  readonly albedo: N
  /** Share of light lost to dirt, 0 to 1. */
  readonly soiling: N
  /** How much warmer than the air the cell gets at 1000 W/m² on the enclosure. */
  readonly enclosureRise_K: N
  readonly climate: Climate
}
