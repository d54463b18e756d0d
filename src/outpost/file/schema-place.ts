/** Where it stands and what must hold, as the file says it: `place` and `aims`. */
import { z } from 'zod'
import { quantity } from './quantity-field.ts'
import { quantities } from './quantity-list-field.ts'

const MONTHS = 12

const weather = z
  .strictObject({
    file: z
      .string()
      .min(1)
      .meta({
        description: 'A weather year: EPW, TMY3 or hourly CSV, beside the outpost file.',
        examples: ['harbour.epw'],
      })
      .optional(),
    place: z
      .string()
      .min(1)
      .meta({ description: 'A built-in place with a like climate.', examples: ['Bergen'] })
      .optional(),
    irradiation: quantities(
      'dailyIrradiation',
      MONTHS,
      {
        description: 'Monthly means of the daily irradiation on the horizontal.',
        examples: ['0.2 0.7 1.9 3.6 5.1 5.5 5.1 4.0 2.3 1.0 0.3 0.1 kWh/m²/d'],
      },
      { low: 0 },
    ).optional(),
    sunshine: quantities(
      'duration',
      MONTHS,
      {
        description: 'Monthly means of the sunshine hours of a day.',
        examples: ['1.0 2.4 4.1 5.9 7.4 7.9 7.2 6.4 4.4 2.7 1.3 0.7 h'],
      },
      { low: 0, high: 86_400 },
    ).optional(),
    temperature: quantities(
      'temperature',
      MONTHS,
      {
        description: 'Monthly mean temperatures.',
        examples: ['1 1 3 6 10 13 15 15 12 9 5 2 °C'],
      },
      { low: -80, high: 50 },
    ).optional(),
    'daily range': quantities(
      'temperatureDifference',
      MONTHS,
      {
        description: 'Monthly means of daily maximum less daily minimum.',
        examples: ['4 5 6 7 7 7 6 6 6 5 4 4 K'],
      },
      { low: 0, high: 40 },
    ).optional(),
  })
  .meta({
    description:
      'One of: file, place, irradiation, sunshine; the last two with temperature and, if known, daily range.',
    examples: [{ place: 'Bergen' }],
  })

const angle = (description: string, example: number, low: number, high: number) =>
  quantity('angle', { description, examples: [example] }, { low, high }).optional()

const placeDetails = z.strictObject({
  latitude: angle('Degrees north, south negative.', 58.4, -90, 90),
  longitude: angle('Degrees east, west negative.', 6.0, -180, 180),
  elevation: quantity(
    'length',
    { description: 'Above the sea.', examples: ['40 m'] },
    { low: -450, high: 9000 },
  ).optional(),
  zone: z
    .string()
    .min(1)
    .meta({ description: 'IANA time zone or hours ahead of UTC.', examples: ['Europe/Oslo', 'UTC+1'] })
    .optional(),
  tilt: angle('Of the panel: 0 lies flat, 90 stands upright.', 70, 0, 180),
  azimuth: angle('Where the panel looks, clockwise from north: 90 east, 180 south.', 180, -360, 360),
  horizon: z
    .record(
      z.string(),
      quantity('angle', { description: 'Elevation of the skyline.', examples: [12] }, { low: 0, high: 90 }),
    )
    .meta({
      description: 'The skyline: a mapping from azimuth to elevation in degrees.',
      examples: [{ 90: 4, 150: 18, 210: 22, 270: 6 }],
    })
    .optional(),
  albedo: quantity(
    'ratio',
    { description: 'Share of light that the ground throws back.', examples: [0.2] },
    { low: 0, high: 1 },
  ).optional(),
  soiling: quantity(
    'ratio',
    { description: 'Share of light lost to dirt.', examples: ['3 %'] },
    { low: 0, high: 0.95 },
  ).optional(),
  'enclosure rise': quantity(
    'temperatureDifference',
    {
      description: 'How much warmer than the air the cell gets in full sun.',
      examples: ['12 K ± 4 K'],
    },
    { low: 0, high: 60 },
  ).optional(),
  weather: weather.optional(),
})

const builtInPlace = z
  .string()
  .min(1)
  .transform((place): z.output<typeof placeDetails> => ({ weather: { place } }))

export const placeSection = z.union([builtInPlace, placeDetails]).meta({
  title: 'Place',
  description: 'Where it stands: a built-in place, or a mapping with latitude, longitude, weather and more.',
  examples: ['Bergen', { latitude: 58.4, longitude: 6, weather: { place: 'Bergen' } }],
})

export const aimsSection = z
  .strictObject({
    winters: quantity(
      'ratio',
      { description: 'Share of winters to be survived.', examples: ['95 %'] },
      { low: 0, high: 1 },
    ).optional(),
    'reports per day': z
      .number()
      .positive()
      .max(1e9)
      .meta({ description: 'Reports a day, at least.', examples: [120] })
      .optional(),
    'no brown-out': z
      .boolean()
      .meta({ description: 'It never browns out.', examples: [true] })
      .optional(),
    years: z
      .number()
      .positive()
      .max(1000)
      .meta({ description: 'Years until the cell is replaced.', examples: [10] })
      .optional(),
  })
  .meta({ title: 'Aims', description: 'What must hold.', examples: [{ winters: '95 %', years: 5 }] })
