/**
 * What-ifs beside the full ensemble, for every example and for designs on the edge: the bounds stated in
 * docs/models/what-if.md. The hourly engine is the truth here; it has its own truths elsewhere.
 */
import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Outlook } from '../src/outlook/outlook.ts'
import { WhatIfMemory } from '../src/outlook/what-if-memory.ts'
import type { Outpost } from '../src/outpost/outpost.ts'
import { begun, full, hasPanel, hasty, outpostOf } from './what-if-beside-full.ts'

const EXAMPLES = readdirSync('examples').filter((file) => file.endsWith('.outpost.yaml'))

function expectSameBudget(quick: Outlook, slow: Outlook): void {
  expect(quick.budget.map(({ name }) => name)).toEqual(slow.budget.map(({ name }) => name))
  for (const [i, { charge_C, u_C }] of slow.budget.entries()) {
    expect(quick.budget[i].charge_C).toBeCloseTo(charge_C, 9)
    expect(quick.budget[i].u_C).toBeCloseTo(u_C, 9)
  }
}

const apart_days = (a: number, b: number) => Math.min(Math.abs(a - b), 365 - Math.abs(a - b))

/** Least charge in the poorest year of twenty, mean over the fourteen days from `start`. */
function fortnightState({ byDay }: Outlook, start: number): number {
  const p5 = new Map(byDay.map(({ at, p5 }) => [at, p5]))
  let sum = 0
  for (let d = 0; d < 14; d++) sum += p5.get((start + d) % 365) ?? 1
  return sum / 14
}

const WINTERS: readonly [example: string, patch?: readonly [string, string]][] = [
  ...EXAMPLES.filter((file) => hasPanel(outpostOf(file))).map((file): [string] => [file]),
  ['fjord-tide-hut.outpost.yaml', ['capacity: 600 mAh', 'capacity: 450 mAh']],
  ['fjord-tide-hut.outpost.yaml', ['capacity: 600 mAh', 'capacity: 300 mAh']],
  ['fjord-tide-hut.outpost.yaml', ['rate: 15 min', 'rate: 10 min']],
  ['cattle-trough.outpost.yaml', ['50 F', '1.2 F']],
  ['orchard'],
  ['orchard', ['cold lock-out: 0 °C', 'cold lock-out: 4 °C']],
  ['orchard', ['cold lock-out: 0 °C', 'cold lock-out: none']],
  ['small pack'],
]

/** On winters that are the same in both: the same drawn design under the same first winter. */
describe.each(WINTERS)('single winters of %s %j', (example, patch) => {
  const outpost = outpostOf(example, patch)
  // So many that what is asked is the share, not on which side of the edge single winters come down.
  const size = { runs: 400, years: 1 }
  const [slow, quick] = [full(outpost, size), hasty(outpost, size)]

  it('survive as in the full outlook, but for three in a hundred', () => {
    expect(Math.abs(quick.winters.survived - slow.winters.survived)).toBeLessThanOrEqual(0.03 * size.runs)
    expect(quick.winters.of).toBe(slow.winters.of)
  })

  it('report as often within one and a half in a hundred', () => {
    expect(Math.abs(quick.reportsPerDay.mean / slow.reportsPerDay.mean - 1)).toBeLessThan(0.015)
  })

  it('name the same worst fortnight within ten days, or one that is as bad', () => {
    const [ours, theirs] = [quick.worstFortnight, slow.worstFortnight]
    const near = apart_days(ours.startDay, theirs.startDay) <= 10
    const asBad = fortnightState(slow, ours.startDay) <= theirs.p5State + 0.05
    expect(near || asBad).toBe(true)
  })

  it('have the same light, air, budget and charge through the year', () => {
    const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)
    expect(sum(quick.light_J_m2) / sum(slow.light_J_m2)).toBeCloseTo(1, 5)
    expect(sum(quick.air_C) / sum(slow.air_C)).toBeCloseTo(1, 5)
    expectSameBudget(quick, slow)
    const off = quick.byDay.map(({ p50 }, i) => Math.abs(p50 - slow.byDay[i].p50))
    expect(sum(off) / off.length).toBeLessThan(0.05)
  })
})

/** Winters of ten years by turns, against all winters of all ten: age and what summers leave are put to the test. */
describe.each([
  ['fjord-tide-hut.outpost.yaml', ['capacity: 600 mAh', 'capacity: 450 mAh']],
  ['fjord-tide-hut.outpost.yaml', ['capacity: 600 mAh', 'capacity: 300 mAh']],
  ['orchard', ['cold lock-out: 0 °C', 'cold lock-out: 4 °C']],
  ['small pack', undefined],
] as const)('winters of ten years of %s %j', (example, patch) => {
  const outpost = outpostOf(example, patch)

  it('survive in the same share, within four in a hundred and the chance of so few', () => {
    const slow = full(outpost, { runs: 60, years: 10 }).winters
    const quick = hasty(outpost, { runs: 600, years: 10 }).winters
    const deviation = Math.sqrt((slow.share * (1 - slow.share)) / 600)
    const between = (slow.high - slow.low) / 2
    expect(Math.abs(quick.share - slow.share)).toBeLessThan(0.04 + Math.hypot(2 * deviation, between))
    const young = full(outpost, { runs: 60, years: 1 }).winters
    expect(Math.abs(quick.share - slow.share)).toBeLessThan(Math.abs(young.share - slow.share))
  })
})

const LIVES: readonly [example: string, patch?: readonly [string, string]][] = [
  ...EXAMPLES.filter((file) => !hasPanel(outpostOf(file))).map((file): [string] => [file]),
  ['avalanche-snow-depth.outpost.yaml', ['brownout: 2.4 V', 'brownout: 2.7 V']],
  ['footpath-counter.outpost.yaml', ['220 ± 90', '1500 ± 300']],
]

describe.each(LIVES)('lives of %s %j', (example, patch) => {
  const outpost = outpostOf(example, patch)
  const size = { runs: 40, years: 15 }
  const [slow, quick] = [full(outpost, size), hasty(outpost, size)]

  it('have the same median within two in a hundred, or none in both', () => {
    const [ours, theirs] = [quick.life.median_days, slow.life.median_days]
    if (theirs === null) expect(ours).toBeNull()
    else expect(Math.abs((ours ?? Infinity) / theirs - 1)).toBeLessThan(0.02)
  })

  it('last as often through every year, but for two in forty', () => {
    for (const [year, share] of slow.aliveAfterYears.entries())
      expect(Math.abs(quick.aliveAfterYears[year] - share)).toBeLessThanOrEqual(2 / 40 + 1e-9)
  })

  it('end of the same cause, keep the same aims and report as often', () => {
    expect(quick.causes[0]?.cause).toBe(slow.causes[0]?.cause)
    expect(quick.aims.map(({ holds }) => holds)).toEqual(slow.aims.map(({ holds }) => holds))
    expect(Math.abs(quick.reportsPerDay.mean / slow.reportsPerDay.mean - 1)).toBeLessThan(0.01)
    expectSameBudget(quick, slow)
  })
})

describe.each([EXAMPLES.find((file) => file.startsWith('fjord')), 'river-ford.outpost.yaml'])(
  'a what-if of %s',
  (example) => {
    const outpost = outpostOf(example as string)
    const size = { runs: 30, years: 10 }
    const whole = hasty(outpost, size)

    it('comes to the same however its runs are portioned', () => {
      const playing = begun(outpost, size)
      for (const runs of [1, 0, 7, 2, 19]) {
        playing.play(runs)
        expect(playing.outlook().runs).toBe(playing.played)
      }
      expect(playing.played).toBe(29)
      playing.play(50)
      expect(playing.outlook()).toEqual(whole)
    })

    it('comes to the same whatever was asked before', () => {
      const memory = new WhatIfMemory()
      for (const other of EXAMPLES) hasty(outpostOf(other), { runs: 2, years: 2 }, memory)
      hasty(outpost, { runs: 3, years: 10 }, memory)
      expect(hasty(outpost, size, memory)).toEqual(whole)
      expect(hasty(outpost, size, memory)).toEqual(whole)
    })

    it('closes its accounts', () => {
      expect(whole.imbalance).toBeLessThan(1e-9)
    })
  },
)

describe('a memory', () => {
  /** Each differs from the one before in one thing that something kept depends on. */
  const place = (change: Partial<Outpost['place']>) => (outpost: Outpost) => ({
    ...outpost,
    place: { ...outpost.place, ...change },
  })
  const number = (value: number) => ({ kind: 'exact', value }) as const
  const changes: readonly (readonly [what: string, change: (outpost: Outpost) => Outpost])[] = [
    ['tilt', place({ tilt_deg: number(20) })],
    ['azimuth', place({ azimuth_deg: number(90) })],
    ['albedo', place({ albedo: number(0.7) })],
    ['horizon', place({ horizon: [{ azimuth_deg: 180, elevation_deg: 30 }] })],
    ['latitude', place({ latitude_deg: 62 })],
    [
      'panel',
      (outpost) => {
        const { panel } = outpost.supply
        if (panel === null) return outpost
        const larger = { ...panel, shortCircuit_A: number(0.05), maximumPower_A: number(0.045) }
        return { ...outpost, supply: { ...outpost.supply, panel: larger } }
      },
    ],
    ['enclosure', place({ enclosureRise_K: number(0) })],
    [
      'charge window',
      (outpost) => {
        const { pack } = outpost.supply
        const charging = pack.cell.charging && { ...pack.cell.charging, low_C: 5 }
        return {
          ...outpost,
          supply: { ...outpost.supply, pack: { ...pack, cell: { ...pack.cell, charging } } },
        }
      },
    ],
    [
      'a pack of hours',
      (outpost) => {
        const { pack } = outpost.supply
        return { ...outpost, supply: { ...outpost.supply, pack: { ...pack, capacity_C: number(100) } } }
      },
    ],
    ['years aimed at', (outpost) => ({ ...outpost, aims: { ...outpost.aims, years: 0.75 } })],
  ]

  it.each(changes)('tells one %s from another', (_, change) => {
    for (const example of ['fjord-tide-hut.outpost.yaml', 'avalanche-snow-depth.outpost.yaml']) {
      const memory = new WhatIfMemory()
      const before = outpostOf(example)
      const after = change(before)
      const size = { runs: 3, years: 2 }
      hasty(before, size, memory)
      expect(hasty(after, size, memory)).toEqual(hasty(after, size))
    }
  })

  it('tells one seed from another', () => {
    for (const example of ['fjord-tide-hut.outpost.yaml', 'avalanche-snow-depth.outpost.yaml']) {
      const outpost = outpostOf(example)
      const size = { runs: 3, years: 2 }
      const memory = new WhatIfMemory()
      hasty(outpost, size, memory)
      expect(hasty(outpost, { ...size, seed: 9 }, memory)).toEqual(hasty(outpost, { ...size, seed: 9 }))
    }
  })
})

describe('aims of years of a device with a panel', () => {
  const aims = (over: Partial<Outpost['aims']>, patch?: readonly [string, string]) => {
    const outpost = outpostOf('fjord-tide-hut.outpost.yaml', patch)
    const none = { winters: null, years: null, reportsPerDay: null, noBrownout: false }
    return hasty({ ...outpost, aims: { ...none, ...over } }, { runs: 100, years: 10 }).aims
  }

  it('are kept where no cell can be worn out by then, and open where one may be', () => {
    expect(aims({ years: 5 })[0].holds).toBe('yes')
    expect(aims({ years: 14 })[0].holds).toBe('cannot tell')
  })

  it('are never promised without a brown-out, but denied where single winters have too many', () => {
    expect(aims({ noBrownout: true })[0].holds).toBe('cannot tell')
    expect(aims({ noBrownout: true }, ['capacity: 600 mAh', 'capacity: 300 mAh'])[0].holds).toBe('no')
  })
})
