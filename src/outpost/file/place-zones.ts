/** The time zones of the built-in places by their IANA names, so that local times of day follow daylight saving there. */

const ZONES: Readonly<Record<string, readonly string[]>> = {
  'Africa/Accra': ['Accra'],
  'Africa/Cairo': ['Cairo'],
  'Africa/Johannesburg': ['Cape Town'],
  'Africa/Khartoum': ['Khartoum'],
  'Africa/Lusaka': ['Lusaka'],
  'Africa/Nairobi': ['Nairobi'],
  'Africa/Windhoek': ['Windhoek'],
  'America/Denver': ['Denver'],
  'America/Guayaquil': ['Quito'],
  'America/Manaus': ['Manaus'],
  'America/Mexico_City': ['Mexico City'],
  'America/Phoenix': ['Phoenix'],
  'America/Punta_Arenas': ['Punta Arenas'],
  'America/Santiago': ['Santiago'],
  'America/Vancouver': ['Vancouver'],
  'America/Winnipeg': ['Winnipeg'],
  // No zone has its name; its stations keep different times. This is the one of its built-in weather.
  '-04:00': ['King George Island'],
  'Asia/Bangkok': ['Bangkok'],
  'Asia/Colombo': ['Colombo'],
  'Asia/Kolkata': ['New Delhi'],
  'Asia/Novosibirsk': ['Novosibirsk'],
  'Asia/Riyadh': ['Riyadh'],
  'Asia/Shanghai': ['Beijing'],
  'Asia/Singapore': ['Singapore'],
  'Asia/Tehran': ['Tehran'],
  'Asia/Tokyo': ['Tokyo'],
  'Asia/Ulaanbaatar': ['Ulaanbaatar'],
  'Atlantic/Reykjavik': ['Reykjavik'],
  'Australia/Darwin': ['Alice Springs'],
  'Australia/Sydney': ['Sydney'],
  'Europe/Athens': ['Athens'],
  'Europe/Berlin': ['Berlin'],
  'Europe/London': ['London'],
  'Europe/Madrid': ['Madrid'],
  'Europe/Moscow': ['Moscow'],
  'Europe/Oslo': ['Bergen', 'Oslo', 'Tromso'],
  'Europe/Paris': ['Paris'],
  'Pacific/Auckland': ['Wellington'],
}

const BY_PLACE = new Map(
  Object.entries(ZONES).flatMap(([zone, places]) => places.map((place) => [place, zone])),
)

/** Null for a name that is no built-in place's, as that of a weather file. */
export const zoneOfPlace = (name: string): string | null => BY_PLACE.get(name) ?? null
