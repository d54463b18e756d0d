/** Small made-up weather files in each format that can be read, for tests: half the light above the air, mild air. */
import { MONTH_LENGTHS } from '../src/sky/calendar.ts'
import { skyLight } from '../src/sky/sky-light.ts'

export interface MadeUpHour {
  month: number
  day: number
  /** 0..23, the hour that begins then. */
  hour: number
  ghi: number
  dni: number
  dhi: number
  temperature: number
}

export const SITE = { latitude: 58.5, longitude: 15.25, zone: 1, elevation: 42 }

const round = (value: number): number => Math.round(value * 10) / 10 + 0 // no negative zero

/** 8760 hours: clearness 0.5, diffuse half of it, temperature by season and hour. */
export function madeUpHours(site = SITE): MadeUpHour[] {
  const sky = skyLight(site.latitude, site.longitude, site.zone, 1)
  const hours: MadeUpHour[] = []
  for (const [m, length] of MONTH_LENGTHS.entries())
    for (let day = 1; day <= length; day++)
      for (let hour = 0; hour < 24; hour++) {
        const i = hours.length
        const ghi = 0.5 * sky.horizontal_W_m2[i]
        const dni = sky.cosZenith[i] > 0 ? (0.5 * ghi) / sky.cosZenith[i] : 0
        const temperature =
          6 - 10 * Math.cos((2 * Math.PI * i) / 8760) + 3 * Math.sin((hour - 9) * (Math.PI / 12))
        hours.push({
          month: m + 1,
          day,
          hour,
          ghi: round(ghi),
          dni: round(dni),
          dhi: round(0.5 * ghi),
          temperature: round(temperature),
        })
      }
  return hours
}

const two = (n: number): string => String(n).padStart(2, '0')

export const epwHead = (site = SITE): string[] => [
  `LOCATION,Made-up Ness,-,XXX,made up,000000,${site.latitude},${site.longitude},${site.zone},${site.elevation}`,
  'DESIGN CONDITIONS,0',
  'TYPICAL/EXTREME PERIODS,0',
  'GROUND TEMPERATURES,0',
  'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0',
  'COMMENTS 1,made up for a test',
  'COMMENTS 2,',
  'DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31',
]

export const epwLine = (h: MadeUpHour, year = 2021): string =>
  `${year},${h.month},${h.day},${h.hour + 1},0,?9?9?9,${h.temperature},0.0,70,101325,0,0,300,${h.ghi},${h.dni},${h.dhi},999999,999999,999999,9999,180,3.0,5,5,20.0,77777,9,999999999,0,0.1,0,88,0.2,0,1`

export const epwFile = (hours: readonly MadeUpHour[], site = SITE): string[] => [
  ...epwHead(site),
  ...hours.map((h) => epwLine(h)),
]

export const tmy3File = (hours: readonly MadeUpHour[], site = SITE): string[] => [
  `000000,"MADE-UP NESS, NORTH",XX,${site.zone},${site.latitude},${site.longitude},${site.elevation}`,
  'Date (MM/DD/YYYY),Time (HH:MM),ETR (W/m^2),GHI (W/m^2),GHI source,DNI (W/m^2),DHI (W/m^2),Dry-bulb (C)',
  ...hours.map(
    (h) =>
      `${two(h.month)}/${two(h.day)}/${1990 + h.month},${two(h.hour + 1)}:00,0,${h.ghi},1,${h.dni},${h.dhi},${h.temperature}`,
  ),
]

export const csvFile = (hours: readonly MadeUpHour[], stampOf = isoStart): string[] => [
  '# made up for a test',
  'time,ghi,temperature',
  ...hours.map((h) => `${stampOf(h)},${h.ghi},${h.temperature}`),
]

export const isoStart = (h: MadeUpHour): string => `2021-${two(h.month)}-${two(h.day)}T${two(h.hour)}:00`
