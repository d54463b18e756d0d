/** What the device does, as the file says it: `wake`, `cadence`, `rest`, `standing`, `resume`, `keeps`. */
import { z } from 'zod'
import { MOST_RETRIES } from '../../wake/outcomes.ts'
import { pair, quantity } from './quantity-field.ts'

const name = (description: string, ...examples: string[]) => z.string().min(1).meta({ description, examples })

const wholeNumber = (low: number, high: number, description: string, example: number) =>
  z
    .number()
    .int()
    .min(low)
    .max(high)
    .meta({ description, examples: [example] })

/** A year: no alarm waits longer. */
const MOST_MINUTES = 366 * 1440

const retries = z
  .strictObject({
    probability: quantity(
      'ratio',
      { description: 'Probability that one try fails.', examples: ['8 %', 0.08] },
      { low: 0, high: 1 },
    ),
    times: wholeNumber(
      1,
      MOST_RETRIES,
      'Further tries after the first; when the last fails, the wake ends without its report.',
      2,
    ),
    backoff: quantity(
      'duration',
      { description: 'Wait before a further try, at the rest current.', examples: ['10 s'] },
      { low: 0 },
    ).optional(),
    lasts: quantity(
      'duration',
      { description: "How long a failed try lasts, at the step's current.", examples: ['3 s [2 s, 5 s]'] },
      { positive: true },
    ).optional(),
  })
  .meta({
    description: 'What happens when the step fails.',
    examples: [{ probability: '8 %', times: 2, backoff: '10 s', lasts: '3 s' }],
  })

const step = z
  .strictObject({
    name: name('What the device does in this step; also how a variant addresses it.', 'sense', 'send'),
    for: quantity(
      'duration',
      { description: 'How long the step lasts.', examples: ['0.8 s ± 0.1 s', '4 s [2 s, 9 s]'] },
      { positive: true },
    ),
    draws: quantity(
      'current',
      {
        description: 'Mean current during the step; beside a peak, the mean of the rest of it.',
        examples: ['6 mA ± 10 %'],
      },
      { low: 0 },
    ),
    peak: pair('current', 'for', 'duration', {
      description:
        'The highest current of the step, and for how long, at its start; what it draws beside is "draws".',
      examples: ['310 mA for 8 ms'],
    }).optional(),
    chance: quantity(
      'ratio',
      { description: 'Probability that the step happens in a wake.', examples: ['30 %', 0.3] },
      { low: 0, high: 1 },
    ).optional(),
    every: wholeNumber(1, 1_000_000, 'The step happens in every n-th wake only.', 6).optional(),
    retries: retries.optional(),
    reports: wholeNumber(0, 1_000_000, 'Readings delivered when the step succeeds.', 6).optional(),
    rail: name('The supply rail it draws from, where there are several.', 'radio').optional(),
    note: name('Anything worth knowing.', 'measured with the lid shut').optional(),
  })
  .meta({
    id: 'step',
    description: 'One part of a wake.',
    examples: [{ name: 'sense', for: '0.8 s', draws: '6 mA' }],
  })

export const wakeSection = z
  .strictObject({
    steps: z
      .array(step)
      .min(1)
      .meta({
        description: 'The steps of one wake, in order.',
        examples: [[{ name: 'sense', for: '0.8 s', draws: '6 mA' }]],
      }),
    boot: z
      .array(step)
      .min(1)
      .meta({
        description: 'Steps that come first in each wake when the device restarts.',
        examples: [[{ name: 'boot', for: '300 ms', draws: '12 mA' }]],
      })
      .optional(),
  })
  .meta({ title: 'Wake', description: 'What the device does when it is awake.', examples: [] })

const thriftRow = z
  .strictObject({
    below: quantity(
      'voltage',
      {
        description: 'The row holds while the battery, under the rest load, is below this.',
        examples: ['3.6 V'],
      },
      { positive: true },
    ),
    interval: quantity(
      'duration',
      { description: "Replaces the schedule's own rest, rate or clock minutes.", examples: ['30 min'] },
      { positive: true },
    ),
    hysteresis: quantity(
      'voltage',
      { description: 'The row is left again only so much above its voltage.', examples: ['60 mV'] },
      { low: 0 },
    ).optional(),
  })
  .meta({ description: 'One row of the thrift table.', examples: [{ below: '3.6 V', interval: '30 min' }] })

export const cadenceSection = z
  .strictObject({
    rest: quantity(
      'duration',
      { description: 'Rests so long after the work is done.', examples: ['10 min'] },
      { positive: true },
    ).optional(),
    rate: quantity(
      'duration',
      { description: 'Wakes on a fixed grid; a wake that overruns costs the next.', examples: ['15 min'] },
      { positive: true },
    ).optional(),
    'clock minutes': wholeNumber(
      1,
      MOST_MINUTES,
      'An alarm when the minute of a real-time clock has changed so many times; the first rest is on average half a minute short.',
      10,
    ).optional(),
    'times of day': z
      .strictObject({
        at: z
          .array(z.string())
          .min(1)
          .meta({ description: 'Local times, 24 hours.', examples: [['06:00', '18:30']] }),
        zone: name(
          'IANA time zone, so that daylight saving is followed; that of the place where left out.',
          'Europe/Oslo',
        ).optional(),
      })
      .meta({ description: 'Wakes at these local times.', examples: [{ at: ['06:00', '18:30'] }] })
      .optional(),
    events: z
      .strictObject({
        'per day': quantity(
          'count',
          { description: 'Mean number a day; they come at random.', examples: ['40 ± 15'] },
          { positive: true },
        ),
      })
      .meta({ description: 'Random events that also wake the device.', examples: [{ 'per day': '40 ± 15' }] })
      .optional(),
    thrift: z
      .array(thriftRow)
      .min(1)
      .meta({
        description: 'Intervals by battery voltage, highest voltage first.',
        examples: [[{ below: '3.6 V', interval: '30 min' }]],
      })
      .optional(),
  })
  .meta({
    title: 'Cadence',
    description:
      'The rule that decides when the next wake is: one of rest, rate, clock minutes, times of day; or events.',
    examples: [{ rest: '10 min' }, { 'clock minutes': 10 }],
  })

export const restSection = quantity(
  'current',
  {
    description: 'Current between wakes, standing drains not included.',
    examples: ['18 µA ± 4 µA', '< 10 mA'],
  },
  { low: 0 },
)

export const standingSection = z
  .array(
    z
      .strictObject({
        name: name('What draws it.', 'battery divider'),
        draws: quantity(
          'current',
          { description: 'What it draws, always.', examples: ['2.1 µA'] },
          { low: 0 },
        ),
        from: z
          .enum(['cell', 'rail'])
          .meta({
            description: 'cell: before the regulator, as a divider is; rail: behind it (the default).',
            examples: ['cell'],
          })
          .optional(),
      })
      .meta({
        description: 'One standing drain.',
        examples: [{ name: 'battery divider', draws: '2.1 µA', from: 'cell' }],
      }),
  )
  .meta({ title: 'Standing drains', description: 'What is drawn always, awake or not.', examples: [] })

export const resumeSection = z.enum(['continue', 'restart']).meta({
  title: 'Resume',
  description: 'continue: goes on where it was, memory kept; restart: boots anew in each wake.',
  examples: ['continue', 'restart'],
})

export const keepsSection = z
  .array(
    z
      .strictObject({
        name: name('What is kept over a rest.', 'wake counter'),
        size: quantity(
          'dataSize',
          { description: 'How much of it.', examples: ['16 B'] },
          { positive: true },
        ),
        memory: z.enum(['ram', 'clock-ram', 'flash', 'eeprom', 'fram']).meta({
          description: 'The memory that holds it; clock-ram is that of a real-time clock.',
          examples: ['clock-ram', 'flash'],
        }),
        endurance: wholeNumber(1, 1e15, 'Erase cycles that one page bears.', 10000).optional(),
        page: quantity(
          'dataSize',
          { description: 'Size of one page that is erased at once.', examples: ['4096 B'] },
          { positive: true },
        ).optional(),
        pages: wholeNumber(1, 1_000_000_000, 'Pages over which the writes are spread.', 8).optional(),
      })
      .meta({
        description: 'Something kept over a rest, written once in each wake.',
        examples: [{ name: 'wake counter', size: '16 B', memory: 'clock-ram' }],
      }),
  )
  .meta({
    title: 'Keeps',
    description: 'What must be carried over a rest, and in which memory.',
    examples: [],
  })
