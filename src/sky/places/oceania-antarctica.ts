/** Built-in places of Australia, New Zealand and Antarctica. All numbers from memory: good for a first forecast, no substitute for a weather file. */
import type { BuiltInPlace } from './place-months.ts'

export const OCEANIA_ANTARCTICA: readonly BuiltInPlace[] = [
  {
    name: 'Sydney',
    latitude_deg: -33.87,
    longitude_deg: 151.2,
    elevation_m: 40,
    zone_h: 10,
    sunshine_h: [220, 196, 205, 204, 198, 180, 208, 245, 240, 245, 236, 242],
    temperature_C: [22.9, 22.9, 21.7, 19, 16, 13.6, 12.8, 14, 16.5, 18.7, 20.2, 22],
    dailyRange_K: [7, 7, 7.5, 8, 8, 8, 8.5, 9, 9, 8.5, 7.5, 7.5],
    source: 'from memory',
  },
  {
    name: 'Alice Springs',
    latitude_deg: -23.8,
    longitude_deg: 133.9,
    elevation_m: 545,
    zone_h: 9.5,
    sunshine_h: [310, 274, 301, 285, 270, 255, 285, 310, 300, 310, 305, 315],
    temperature_C: [28.8, 27.8, 25.2, 20.5, 15.6, 12.4, 12, 14.6, 19.3, 23, 26, 27.8],
    dailyRange_K: [15, 14.5, 15, 15.5, 15, 15, 16, 17, 17, 16, 15.5, 15],
    source: 'from memory',
  },
  {
    name: 'Wellington',
    latitude_deg: -41.3,
    longitude_deg: 174.8,
    elevation_m: 30,
    zone_h: 12,
    sunshine_h: [240, 205, 195, 155, 128, 99, 119, 137, 163, 193, 210, 226],
    temperature_C: [17.2, 17.5, 16, 13.8, 11.5, 9.5, 8.8, 9.3, 10.9, 12.3, 13.8, 15.8],
    dailyRange_K: [7, 7, 6.5, 6, 5.5, 5, 5, 5.5, 5.5, 6, 6.5, 6.5],
    source: 'from memory',
  },
  {
    name: 'King George Island',
    latitude_deg: -62.2,
    longitude_deg: -58.9,
    elevation_m: 10,
    zone_h: -4,
    sunshine_h: [80, 70, 55, 35, 15, 5, 8, 30, 60, 85, 90, 85],
    temperature_C: [1.5, 1.5, 0.3, -2, -4, -5.8, -6.5, -6.3, -4.7, -2.7, -1.1, 0.5],
    dailyRange_K: [3, 3, 3.5, 4.5, 5, 6, 6.5, 6.5, 6, 5, 4, 3],
    source: 'from memory',
  },
]
