/** Where the weather of a report comes from, in words that follow "Weather: ". */
import type { WeatherYear } from '../sky/place.ts'

/** `moved`: the file of that year was named in place of the outpost's own. */
export function weatherWords(year: WeatherYear | null, moved: boolean): string {
  if (year === null) return 'drawn from the climate of the place'
  return `drawn from a climate fitted to ${year.title}${moved ? ', in whose place the outpost is taken to stand' : ''}`
}
