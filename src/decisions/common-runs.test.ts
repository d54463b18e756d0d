import { describe, expect, it } from 'vitest'
import { exact, step, sunlit } from '../../test/designs.ts'
import { chunkPlayer, ensembleOf } from '../outlook/ensemble.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { cellOf } from '../supply/cell-catalogue.ts'
import { type DesignSpace, type Picked, playerOf } from './common-runs.ts'
import { designAt } from './sizing.ts'
import { withCapacity } from './sizing-axes.ts'

const settings = { years: 3, seed: 4, stepsPerHour: 1, cutDay: 181, calendarYear: 2027 }

/** A cell so small that some winters are lost, and numbers that are drawn: rest, panel tilt, capacity. */
const base = exact({
  ...sunlit,
  wake: { ...sunlit.wake, steps: [step({ duration_s: 12 })] },
  supply: {
    ...sunlit.supply,
    pack: { ...sunlit.supply.pack, cell: cellOf('Li-ion', 1500), capacity_C: 1500 },
  },
})
const outpost: Outpost = {
  ...base,
  wake: { ...base.wake, rest_A: { kind: 'normal', value: 60e-6, u: 20e-6 } },
  place: { ...base.place, tilt_deg: { kind: 'uniform', low: 40, high: 80 } },
  supply: {
    ...base.supply,
    pack: { ...base.supply.pack, capacity_C: { kind: 'normal', value: 1500, u: 60 } },
  },
}
const { panel } = outpost.supply
if (panel === null) throw new Error('the design has no panel')
const space: DesignSpace = {
  ...settings,
  outpost,
  packs: [outpost.supply.pack, withCapacity(outpost.supply.pack, 1900)],
  panels: [
    { panel, times: 1 },
    { panel, times: 1.3 },
  ],
  intervals_s: [null, 900],
}
const picks: Picked[] = [
  { pack: 0, panel: 0, interval: 0 },
  { pack: 0, panel: 1, interval: 0 },
  { pack: 1, panel: 1, interval: 1 },
]

/** The same design through the whole engine of the outlook. */
function forecast(pick: Picked, runs: number) {
  const ensemble = ensembleOf(designAt(space, pick), { ...settings, runs })
  const { counts } = chunkPlayer(ensemble)(0, runs)
  return { runs: counts.runs, winters: counts.winters, survived: counts.survived }
}

describe('designs through common runs', () => {
  const runs = 6
  const play = playerOf(space)
  const counts = play({ picks, from: 0, to: runs })

  it('survive the very winters that the forecast of each has them survive', () => {
    for (const [i, pick] of picks.entries()) expect(counts[i]).toEqual(forecast(pick, runs))
    expect(counts[0].survived).toBeGreaterThan(0)
    expect(counts[0].survived).toBeLessThan(counts[0].winters)
  })

  it('survive no less with a larger panel, and no less yet with a larger cell and longer rests', () => {
    expect(counts[1].survived).toBeGreaterThanOrEqual(counts[0].survived)
    expect(counts[2].survived).toBeGreaterThanOrEqual(counts[1].survived)
  })

  it('come to the same whatever else is asked for, and in whatever chunks', () => {
    const alone = playerOf(space)({ picks: [picks[1]], from: 0, to: 2 })[0]
    const rest = play({ picks: [picks[1], picks[0]], from: 2, to: runs })[0]
    expect(alone.survived + rest.survived).toBe(counts[1].survived)
  })
})
