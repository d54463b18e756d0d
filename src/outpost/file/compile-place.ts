/** From what the file says of its place to the engine's. */
import { parseQuantity } from '../../quantity/parse-quantity.ts'
import { best } from '../../quantity/spread.ts'
import { exactly, type Uncertain } from '../../quantity/uncertain.ts'
import type { HorizonPoint, Place, WeatherYear } from '../../sky/place.ts'
import {
  climateOfMonths,
  compileSky,
  type FileResolver,
  type PlaceEntry,
  type Site,
} from './compile-weather.ts'
import type { Findings } from './findings.ts'
import { zoneOfPlace } from './place-zones.ts'
import { namedZone, standardOffset_h } from './zone.ts'

export interface CompiledPlace {
  readonly place: Place
  readonly weatherYear: WeatherYear | null
  /** The zone in which local times of day are told, where one is known. */
  readonly zone: string | null
}

const COMMON_PRACTICE = 'common practice, from memory'
/** Steeper than the latitude by this: the winter sun is low, and snow slides off. */
const WINTER_TILT_deg = 15
const USUAL = {
  albedo: { kind: 'uniform', low: 0.15, high: 0.25 },
  soiling: { kind: 'uniform', low: 0, high: 0.05 },
  enclosureRise_K: { kind: 'uniform', low: 5, high: 25 },
} as const satisfies Record<string, Uncertain>

/** Zones and longitudes further apart than this are a slip of sign. */
const FARTHEST_ZONE_h = 4
const DEGREES_PER_HOUR = 15
/** A weather file from further off than this is another place's. */
const FARTHEST_WEATHER_deg = 1.5

/** Null where place or sky could not be made out. `hasPanel` says whether the panel's angles matter. */
export function compilePlace(
  entry: PlaceEntry,
  hasPanel: boolean,
  files: FileResolver,
  findings: Findings,
): CompiledPlace | null {
  const sky = compileSky(entry, files, findings)
  const position = compilePosition(entry, sky?.site ?? null, findings)
  const zone = compileZone(entry, sky?.site ?? null, position, findings)
  const horizon = compileHorizon(entry, hasPanel, findings)
  if (sky === null || position === null || zone === null || entry.weather === undefined) return null
  const climate = sky.climate ?? climateOfMonths(entry.weather, position.latitude_deg, findings)
  if (climate === null) return null
  return {
    weatherYear: sky.year,
    zone: zone.name,
    place: {
      ...position,
      zone_h: zone.offset_h,
      ...compilePlane(entry, position.latitude_deg, hasPanel, findings),
      horizon,
      enclosureRise_K:
        entry['enclosure rise']?.value ??
        assumed('enclosure rise', '5..25 K in full sun', USUAL.enclosureRise_K, true, findings),
      climate,
    },
  }
}

type Position = Pick<Place, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>

function compilePosition(entry: PlaceEntry, site: Site | null, findings: Findings): Position | null {
  const own = (key: 'latitude' | 'longitude', ofSite: number | undefined): number | null => {
    const given = entry[key]
    if (given !== undefined) return best(given.value)
    if (ofSite === undefined) {
      // Where weather is missing, that is said already, and may bring the position with it.
      if (entry.weather !== undefined && (entry.weather.irradiation ?? entry.weather.sunshine) !== undefined)
        findings.error(
          ['place'],
          {
            code: 'missing-key',
            message: `"${key}" is missing from "place"`,
            expected: 'latitude and longitude in degrees, unless the weather brings them',
            cure: `add "${key}: ${key === 'latitude' ? 58.4 : 6}", for example`,
          },
          'key',
        )
      return null
    }
    findings.assume(['place', key], `${ofSite}°`, site?.title ?? '')
    return ofSite
  }
  const latitude_deg = own('latitude', site?.latitude_deg)
  const longitude_deg = own('longitude', site?.longitude_deg)
  if (latitude_deg === null || longitude_deg === null) return null
  const elevation_m = entry.elevation ? best(entry.elevation.value) : (site?.elevation_m ?? 0)
  if (entry.elevation === undefined)
    findings.assume(['place', 'elevation'], `${elevation_m} m`, site?.title ?? 'default')
  if (site !== null) checkDistance(site, latitude_deg, longitude_deg, findings)
  return { latitude_deg, longitude_deg, elevation_m }
}

function checkDistance(site: Site, latitude_deg: number, longitude_deg: number, findings: Findings): void {
  const apart_deg = Math.abs(site.latitude_deg - latitude_deg)
  if (apart_deg <= FARTHEST_WEATHER_deg) return
  findings.warn(['place', 'latitude'], {
    code: 'weather-elsewhere',
    message: `the weather is that of ${site.title} at ${site.latitude_deg}°, the place lies at ${latitude_deg}°, ${apart_deg.toFixed(1)}° off (longitude ${longitude_deg}°)`,
    expected: `weather from within ${FARTHEST_WEATHER_deg}° of latitude`,
    cure: 'check the sign of the latitude, or take weather from nearer by',
  })
}

function compileZone(
  entry: PlaceEntry,
  site: Site | null,
  position: Position | null,
  findings: Findings,
): { name: string | null; offset_h: number } | null {
  if (entry.zone === undefined) {
    if (site !== null) {
      // Weather that is borrowed for another place says nothing of the clocks there; a file knows hours, but no rules.
      const isThere = [entry.latitude, entry.longitude, entry.weather?.file].every(
        (each) => each === undefined,
      )
      return { name: isThere ? zoneOfPlace(site.title) : null, offset_h: site.zone_h }
    }
    if (position === null) return null
    const offset_h = Math.round(position.longitude_deg / DEGREES_PER_HOUR)
    findings.assume(
      ['place', 'zone'],
      `UTC${offset_h < 0 ? '' : '+'}${offset_h}, by the longitude`,
      'default',
    )
    return { name: null, offset_h }
  }
  const name = namedZone(entry.zone)
  if (name === null) {
    findings.error(['place', 'zone'], {
      code: 'unknown-zone',
      message: `"${entry.zone}" is no time zone`,
      expected: 'an IANA name as "Europe/Oslo", or "UTC+1"',
      cure: 'name the zone after its largest city',
    })
    return null
  }
  const offset_h = standardOffset_h(name)
  const sun_h = (position?.longitude_deg ?? offset_h * DEGREES_PER_HOUR) / DEGREES_PER_HOUR
  const apart_h = Math.abs(((offset_h - sun_h + 36) % 24) - 12)
  if (apart_h > FARTHEST_ZONE_h)
    findings.warn(['place', 'zone'], {
      code: 'zone-far-from-longitude',
      message: `${entry.zone} is ${offset_h} h ahead of UTC, the longitude ${position?.longitude_deg}° says ${sun_h.toFixed(1)} h`,
      expected: `a zone within ${FARTHEST_ZONE_h} h of the longitude`,
      cure: 'check the sign of the longitude: east is positive',
    })
  return { name, offset_h }
}

function compilePlane(
  entry: PlaceEntry,
  latitude_deg: number,
  hasPanel: boolean,
  findings: Findings,
): Pick<Place, 'tilt_deg' | 'azimuth_deg' | 'albedo' | 'soiling'> {
  const tilt_deg = Math.min(90, Math.round(Math.abs(latitude_deg) + WINTER_TILT_deg))
  const azimuth_deg = latitude_deg >= 0 ? 180 : 0
  return {
    tilt_deg:
      entry.tilt?.value ??
      assumed('tilt', `${tilt_deg}°, for the winter sun`, exactly(tilt_deg), hasPanel, findings),
    azimuth_deg:
      entry.azimuth?.value ??
      assumed('azimuth', `${azimuth_deg}°, towards the equator`, exactly(azimuth_deg), hasPanel, findings),
    albedo: entry.albedo?.value ?? assumed('albedo', '0.15..0.25', USUAL.albedo, hasPanel, findings),
    soiling:
      entry.soiling?.value ?? assumed('soiling', '0..5 % of the light', USUAL.soiling, hasPanel, findings),
  }
}

function assumed(
  key: string,
  text: string,
  usual: Uncertain,
  matters: boolean,
  findings: Findings,
): Uncertain {
  if (matters) findings.assume(['place', key], text, COMMON_PRACTICE)
  return usual
}

function compileHorizon(entry: PlaceEntry, hasPanel: boolean, findings: Findings): HorizonPoint[] {
  if (entry.horizon === undefined) {
    if (hasPanel) findings.assume(['place', 'horizon'], 'free all round', 'default')
    return []
  }
  return Object.entries(entry.horizon)
    .flatMap(([key, elevation]) => {
      const azimuth = parseQuantity(/^-?[\d.]+$/.test(key) ? `${key}°` : key, 'angle')
      if (azimuth.ok && azimuth.value >= 0 && azimuth.value < 360)
        return [{ azimuth_deg: azimuth.value, elevation_deg: best(elevation.value) }]
      findings.error(
        ['place', 'horizon', key],
        {
          code: 'horizon-azimuth',
          message: `"${key}" is no azimuth`,
          expected: 'degrees clockwise from north, 0 to below 360',
          cure: 'write the azimuth before the colon: 90 is east, 180 south',
        },
        'key',
      )
      return []
    })
    .sort((a, b) => a.azimuth_deg - b.azimuth_deg)
}
