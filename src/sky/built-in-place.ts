/**
 * Forty places on all continents, so that an outpost forecasts without any download: monthly sunshine and temperatures
 * from memory, a first guess and no substitute for a weather file.
 */
import { nearestWord } from '../numeric/edit-distance.ts'
import { MONTH_LENGTHS } from './calendar.ts'
import { climateFromSunshine } from './climate-months.ts'
import type { Climate } from './place.ts'
import { AFRICA } from './places/africa.ts'
import { AMERICAS } from './places/americas.ts'
import { ASIA } from './places/asia.ts'
import { EUROPE } from './places/europe.ts'
import { OCEANIA_ANTARCTICA } from './places/oceania-antarctica.ts'
import type { BuiltInPlace } from './places/place-months.ts'

/** By continent, then as written. */
export const BUILT_IN_PLACES: readonly BuiltInPlace[] = [
  ...EUROPE,
  ...ASIA,
  ...AFRICA,
  ...AMERICAS,
  ...OCEANIA_ANTARCTICA,
]

/** Small letters without accents or doubled blanks, as people type names. */
const plain = (name: string): string =>
  name.normalize('NFD').replace(/\p{M}/gu, '').replaceAll('ø', 'o').toLowerCase().trim().replace(/\s+/g, ' ')

/** The place of that name, whatever case and accents; otherwise the name nearest to it. */
export function findPlace(
  name: string,
): { readonly ok: true; readonly place: BuiltInPlace } | { readonly ok: false; readonly nearest: string } {
  const place = BUILT_IN_PLACES.find((candidate) => plain(candidate.name) === plain(name))
  if (place) return { ok: true, place }
  const names = BUILT_IN_PLACES.map((candidate) => candidate.name)
  return { ok: false, nearest: nearestWord(plain(name), names) }
}

export const climateOfPlace = (place: BuiltInPlace): Climate =>
  climateFromSunshine(
    place.latitude_deg,
    place.sunshine_h.map((hours, month) => hours / MONTH_LENGTHS[month]),
    place,
  )
