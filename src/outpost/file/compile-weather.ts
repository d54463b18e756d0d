/** The sky over a place, from whichever of its sources the file names: a weather year, a built-in place, or months. */
import { best } from '../../quantity/spread.ts'
import { climateOfPlace, findPlace } from '../../sky/built-in-place.ts'
import { climateFromYear } from '../../sky/climate-fit.ts'
import { climateFromIrradiation, climateFromSunshine } from '../../sky/climate-months.ts'
import type { Climate, WeatherYear } from '../../sky/place.ts'
import { readWeather } from '../../sky/weather-read.ts'
import type { WeatherHints } from '../../sky/weather-result.ts'
import type { Path } from './diagnostic.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'
import { namedZone, standardOffset_h } from './zone.ts'

export type PlaceEntry = OutpostFile['place']
type WeatherEntry = NonNullable<PlaceEntry['weather']>

/** Gives the bytes of a file that the outpost names, null where there is none. */
export type FileResolver = (path: string) => Uint8Array | null

/** What the weather's source says of the site itself, before the file's own numbers. */
export interface Site {
  readonly title: string
  readonly latitude_deg: number
  readonly longitude_deg: number
  readonly elevation_m: number
  readonly zone_h: number
}

export interface Sky {
  readonly site: Site | null
  readonly year: WeatherYear | null
  /** Null where the climate follows from monthly means, which need the latitude first. */
  readonly climate: Climate | null
}

const AT = ['place', 'weather'] as const
const SOURCES = ['file', 'place', 'irradiation', 'sunshine'] as const
const USUAL_RANGE_K = 8
const SECONDS_PER_HOUR = 3600

/** Null where no sky could be made out; the findings say why. */
export function compileSky(
  { weather: entry, ...site }: PlaceEntry,
  files: FileResolver,
  findings: Findings,
): Sky | null {
  const given = SOURCES.filter((source) => entry?.[source] !== undefined)
  if (entry === undefined || given.length !== 1) {
    findings.error(
      entry === undefined ? ['place'] : given.length === 0 ? AT : [...AT, given[1]],
      {
        code: given.length === 0 ? 'weather-missing' : 'weather-ambiguous',
        message:
          given.length === 0
            ? 'nothing says what the sky does there'
            : `${given.map((key) => `"${key}"`).join(' and ')} both say what the sky does`,
        expected: `weather with one of ${SOURCES.join(', ')}`,
        cure:
          given.length === 0
            ? 'name a built-in place with a like climate: "weather: { place: Bergen }"'
            : 'keep one of them',
      },
      'key',
    )
    return null
  }
  if (entry.file !== undefined) return skyOfFile(entry.file, site, files, findings)
  if (entry.place !== undefined) return skyOfPlace(entry.place, findings)
  return { site: null, year: null, climate: null }
}

function skyOfPlace(name: string, findings: Findings): Sky | null {
  const found = findPlace(name)
  if (!found.ok) {
    findings.error([...AT, 'place'], {
      code: 'unknown-place',
      message: `no built-in place is called "${name}"`,
      expected: 'a built-in place, or latitude, longitude and monthly values of your own',
      cure: `did you mean "${found.nearest}"?`,
    })
    return null
  }
  const { place } = found
  findings.assume(AT, `monthly sunshine and temperatures of ${place.name}`, place.source)
  return { site: { ...place, title: place.name }, year: null, climate: climateOfPlace(place) }
}

function skyOfFile(path: string, site: PlaceEntry, files: FileResolver, findings: Findings): Sky | null {
  const at = [...AT, 'file']
  const bytes = files(path)
  if (bytes === null) {
    findings.error(at, {
      code: 'weather-file-missing',
      message: `"${path}" could not be read`,
      expected: 'a weather year (EPW, TMY3 or hourly CSV), named from where the outpost file stands',
      cure: 'check the path and its spelling',
    })
    return null
  }
  const { result, climate } = readOnce(bytes, hintsOf(site))
  if (result.ok) {
    const { year } = result
    for (const note of result.notes) findings.assume(at, note, path)
    return { site: year, year, climate }
  }
  for (const { code, line, message, expected, cure } of result.problems)
    findings.error(at, {
      code: code.replace('.', '-'),
      message: `${path}${line === null ? '' : `, line ${line}`}: ${message}`,
      expected,
      cure,
    })
  return null
}

interface WeatherRead {
  readonly result: ReturnType<typeof readWeather>
  readonly climate: Climate | null
}

/** A year takes long to read, and each variant, and each stroke of a key, asks for it: kept with its bytes. */
const known = new WeakMap<Uint8Array, Map<string, WeatherRead>>()

function readOnce(bytes: Uint8Array, hints: WeatherHints): WeatherRead {
  const byHints = known.get(bytes) ?? new Map<string, WeatherRead>()
  known.set(bytes, byHints)
  const key = JSON.stringify(hints)
  const before = byHints.get(key)
  if (before !== undefined) return before
  const result = readWeather(bytes, hints)
  const read = { result, climate: result.ok ? climateFromYear(result.year) : null }
  byHints.set(key, read)
  return read
}

/** What a weather file without a head of its own needs to know. */
function hintsOf({ latitude, longitude, elevation, zone }: PlaceEntry): WeatherHints {
  const name = zone === undefined ? null : namedZone(zone)
  return {
    ...(latitude && { latitude_deg: best(latitude.value) }),
    ...(longitude && { longitude_deg: best(longitude.value) }),
    ...(elevation && { elevation_m: best(elevation.value) }),
    ...(name !== null && { zone_h: standardOffset_h(name) }),
  }
}

/** The climate of the monthly means in the file; null where they cannot be, for which the findings say why. */
export function climateOfMonths(
  entry: WeatherEntry,
  latitude_deg: number,
  findings: Findings,
): Climate | null {
  const { temperature } = entry
  if (temperature === undefined) {
    findings.error(
      AT,
      {
        code: 'missing-key',
        message: '"temperature" is missing from "weather"',
        expected: 'twelve monthly mean temperatures',
        cure: 'add "temperature: 1 1 3 6 10 13 15 15 12 9 5 2 °C"',
      },
      'key',
    )
    return null
  }
  const range = entry['daily range'] ?? temperature.map(() => USUAL_RANGE_K)
  if (entry['daily range'] === undefined)
    findings.assume(
      [...AT, 'daily range'],
      `${USUAL_RANGE_K} K between a day's lowest and highest`,
      'common practice, from memory',
    )
  const temperatures = { temperature_C: temperature, dailyRange_K: range }
  const key = entry.sunshine === undefined ? 'irradiation' : 'sunshine'
  try {
    return entry.sunshine === undefined
      ? climateFromIrradiation(latitude_deg, entry.irradiation ?? [], temperatures)
      : climateFromSunshine(
          latitude_deg,
          entry.sunshine.map((s) => s / SECONDS_PER_HOUR),
          temperatures,
        )
  } catch (error) {
    findings.error([...AT, key] as Path, {
      code: 'weather-impossible',
      message: error instanceof RangeError ? error.message : String(error),
      expected: `monthly values that can be at latitude ${latitude_deg}°`,
      cure: 'check the month, the unit, and the sign of the latitude',
    })
    return null
  }
}
