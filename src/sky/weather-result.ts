/** What reading a weather file gives: the year with what was mended, or everything that is wrong with the file. */
import type { WeatherYear } from './place.ts'

export type WeatherProblemCode =
  | 'weather.empty'
  | 'weather.format'
  | 'weather.header'
  | 'weather.site'
  | 'weather.column'
  | 'weather.fields'
  | 'weather.number'
  | 'weather.time'
  | 'weather.duplicate'
  | 'weather.gap'
  | 'weather.range'
  | 'weather.light'
  | 'weather.clock'

export interface WeatherProblem {
  readonly code: WeatherProblemCode
  /** Counted from 1; null where no single line is at fault. */
  readonly line: number | null
  readonly message: string
  readonly expected: string
  readonly cure: string
}

export type WeatherResult =
  | { readonly ok: true; readonly year: WeatherYear; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly WeatherProblem[] }

/** What a file does not say of itself. Format detection needs none; the generic CSV needs the site. */
export interface WeatherHints {
  readonly title?: string
  readonly latitude_deg?: number
  /** East positive. */
  readonly longitude_deg?: number
  readonly elevation_m?: number
  /** Hours ahead of UTC of the standard time in which hours are counted. */
  readonly zone_h?: number
  /** Generic CSV: does a time name the beginning of its interval (the default) or its end? */
  readonly stamp?: 'start' | 'end'
}

/** Gathers problems up to a limit, so that a file damaged on every line does not give 8760 of them. */
export class ProblemList {
  readonly problems: WeatherProblem[] = []
  private readonly limit: number

  constructor(limit = 20) {
    this.limit = limit
  }

  get full(): boolean {
    return this.problems.length >= this.limit
  }

  add(code: WeatherProblemCode, line: number | null, message: string, expected: string, cure: string): void {
    if (!this.full) this.problems.push({ code, line, message, expected, cure })
  }
}
