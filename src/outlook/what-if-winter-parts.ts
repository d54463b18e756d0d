/**
 * A year that only leads up to a winter, in a cool and a warm part of each fortnight: the cell stands a standard deviation
 * below and above its mean over the hours, because it ages faster than in proportion to warmth (Gauss-Hermite, two
 * points), and all the light is in the warm one.
 */
import { DAYS } from '../sky/calendar.ts'

export const PARTS = 52
const HOURS_PER_FORTNIGHT = (DAYS * 24) / (PARTS / 2)

export interface YearInParts {
  /** W/m² on the panel's plane. */
  readonly partLight: Float64Array
  /** Air in which that light brings the cell to the part's temperature, °C. */
  readonly partAir: Float64Array
}

/** Sums over the hours of each fortnight. */
export class Fortnights {
  private readonly hours = new Uint16Array(PARTS / 2)
  private readonly light = new Float64Array(PARTS / 2)
  private readonly cell = new Float64Array(PARTS / 2)
  private readonly cellSquared = new Float64Array(PARTS / 2)

  /** `hour` of the year 0..8759, the light that charges in it, W/m², and the cell's temperature. */
  add(hour: number, light_W_m2: number, cell_C: number): void {
    const fortnight = Math.floor((hour + 0.5) / HOURS_PER_FORTNIGHT)
    this.hours[fortnight]++
    this.light[fortnight] += light_W_m2
    this.cell[fortnight] += cell_C
    this.cellSquared[fortnight] += cell_C * cell_C
  }

  /** `rise_K_m2_W`: how much warmer than the air light makes the cell. */
  inParts(rise_K_m2_W: number): YearInParts {
    const partLight = new Float64Array(PARTS)
    const partAir = new Float64Array(PARTS)
    for (const [fortnight, hours] of this.hours.entries()) {
      const mean = this.cell[fortnight] / hours
      const deviation = Math.sqrt(Math.max(this.cellSquared[fortnight] / hours - mean * mean, 0))
      const cool = 2 * fortnight
      const warm = cool + 1
      partLight[warm] = (2 * this.light[fortnight]) / hours
      partAir[cool] = mean - deviation
      partAir[warm] = mean + deviation - rise_K_m2_W * partLight[warm]
    }
    return { partLight, partAir }
  }
}
