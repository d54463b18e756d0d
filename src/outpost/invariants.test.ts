import { describe, expect, test } from 'vitest'
import { best } from '../quantity/spread.ts'
import { newOutpost } from './file/new.ts'
import { readOutpost } from './file/read.ts'
import { resolve } from './inputs.ts'
import { brokenRules, requireSound } from './invariants.ts'
import type { Outpost } from './outpost.ts'

function soundOutpost(): Outpost<number> {
  const made = newOutpost({
    cell: 'Li-ion 1 Ah',
    interval: '10 min',
    awakeFor: '2 s',
    awakeCurrent: '20 mA',
    restCurrent: '9 µA',
    panel: '1 W at 6 V',
  })
  const read = made.ok ? readOutpost(made.text) : null
  if (!read?.ok) throw new Error('no outpost to start from')
  return resolve(read.outpost, best)
}

const sound = soundOutpost()
const { wake, supply, place } = sound
const step = wake.steps[0]

describe('brokenRules', () => {
  test('finds nothing wrong with a design from the reader', () => {
    expect(brokenRules(sound)).toEqual([])
    expect(() => requireSound(sound)).not.toThrow()
  })

  test.each<[string, Outpost<number>]>([
    ['wake.rest_A', { ...sound, wake: { ...wake, rest_A: Number.NaN } }],
    ['wake.rest_A', { ...sound, wake: { ...wake, rest_A: -1e-6 } }],
    ['wake.steps', { ...sound, wake: { ...wake, steps: [] } }],
    ['wake.steps[0].chance', { ...sound, wake: { ...wake, steps: [{ ...step, chance: 1.2 }] } }],
    ['wake.steps[0].every', { ...sound, wake: { ...wake, steps: [{ ...step, every: 0 }] } }],
    ['wake.steps[0].duration_s', { ...sound, wake: { ...wake, steps: [{ ...step, duration_s: -1 }] } }],
    ['wake.cadence', { ...sound, wake: { ...wake, cadence: { schedule: null, events: null, thrift: [] } } }],
    [
      'wake.cadence.thrift[1]',
      {
        ...sound,
        wake: {
          ...wake,
          cadence: {
            ...wake.cadence,
            thrift: [
              { below_V: 3.5, hysteresis_V: 0.1, interval_s: 60 },
              { below_V: 3.6, hysteresis_V: 0.1, interval_s: 90 },
            ],
          },
        },
      },
    ],
    ['supply.pack.series', { ...sound, supply: { ...supply, pack: { ...supply.pack, series: 1.5 } } }],
    ['supply.pack.initial', { ...sound, supply: { ...supply, pack: { ...supply.pack, initial: 1.1 } } }],
    ['supply.panel', { ...sound, supply: { ...supply, charger: null } }],
    ['place.latitude_deg', { ...sound, place: { ...place, latitude_deg: 91 } }],
    [
      'place.horizon',
      {
        ...sound,
        place: {
          ...place,
          horizon: [
            { azimuth_deg: 90, elevation_deg: 3 },
            { azimuth_deg: 10, elevation_deg: 3 },
          ],
        },
      },
    ],
    [
      'place.climate.clearness',
      { ...sound, place: { ...place, climate: { ...place.climate, clearness: [0.4] } } },
    ],
  ])('names %s', (path, outpost) => {
    expect(brokenRules(outpost).map((line) => line.split(':')[0])).toContain(path)
    expect(() => requireSound(outpost)).toThrow(RangeError)
  })
})
