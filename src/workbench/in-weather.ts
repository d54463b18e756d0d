/** Designs under the sky of a weather file that a user named, instead of their own. */
import { readFile } from 'node:fs/promises'
import type { Design } from '../outpost/file/read.ts'
import { climateFromYear } from '../sky/climate-fit.ts'
import type { WeatherYear } from '../sky/place.ts'
import { readWeather } from '../sky/weather-read.ts'
import { Refusal } from './refusal.ts'
import { unreadable } from './text-of.ts'

/**
 * Reads the file at `path` and returns what puts a design there: into its place, sky and clock, the panel as it was
 * mounted. Where `path` is null designs stay as they are. Throws a Refusal where the file cannot be read.
 */
export async function intoWeather(
  path: string | null,
): Promise<<Given extends Design>(design: Given) => Given> {
  if (path === null) return (design) => design
  const year = await weatherFile(path)
  const { latitude_deg, longitude_deg, elevation_m, zone_h } = year
  const climate = climateFromYear(year)
  return (design) => {
    const { outpost } = design
    const place = { ...outpost.place, latitude_deg, longitude_deg, elevation_m, zone_h, climate }
    return { ...design, outpost: { ...outpost, place }, weatherYear: year }
  }
}

async function weatherFile(path: string): Promise<WeatherYear> {
  const result = readWeather(await readBytes(path))
  if (result.ok) return result.year
  throw new Refusal(
    result.problems
      .map(({ line, message, expected, cure, code }) =>
        [
          `${path}${line === null ? '' : `:${line}`}: ${message} [${code}]`,
          `  expected: ${expected}`,
          `  cure: ${cure}`,
        ].join('\n'),
      )
      .join('\n\n'),
  )
}

async function readBytes(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path)
  } catch (error) {
    throw unreadable(path, error)
  }
}
