import { describe, expect, it } from 'vitest'
import { exact, sunlit } from '../../test/designs.ts'
import { best } from '../quantity/spread.ts'
import { findCell } from '../supply/cell-catalogue.ts'
import { intervalOf, intervalsAround, preferredAround, withCapacity, withInterval } from './sizing-axes.ts'

const design = exact(sunlit)

describe('the axes of sizing', () => {
  it('are preferred numbers: ISO 3, rounded series R20 and R10, across decades', () => {
    expect(preferredAround(1000, 3, 3)).toEqual([800, 900, 1000, 1120, 1250, 1400])
    expect(preferredAround(0.1, 2, 3, 2)).toEqual([0.08, 0.1, 0.125, 0.16, 0.2])
    expect(() => preferredAround(0, 1, 1)).toThrow(RangeError)
  })

  it('keep the interval of the outpost among customary ones', () => {
    expect(intervalsAround(900, 2, 2)).toEqual([600, 720, 900, 1200, 1500])
    expect(intervalsAround(610, 1, 1)).toEqual([540, 610, 720])
  })

  it('change the interval of any schedule that has one, and drop thrift rows that would quicken', () => {
    const thrift = [3600, 600].map((interval_s) => ({
      below_V: { kind: 'exact', value: 3.6 } as const,
      hysteresis_V: { kind: 'exact', value: 0.1 } as const,
      interval_s,
    }))
    const { wake } = design
    const slow = withInterval({ ...design, wake: { ...wake, cadence: { ...wake.cadence, thrift } } }, 900)
    expect(intervalOf(slow)).toBe(900)
    expect(slow.wake.cadence.thrift.map(({ interval_s }) => interval_s)).toEqual([3600])
    const clock = { ...wake.cadence, schedule: { kind: 'clock-minutes', minutes: 5 } as const }
    expect(intervalOf(withInterval({ ...design, wake: { ...wake, cadence: clock } }, 120))).toBe(120)
    expect(() => withInterval({ ...design, wake: { ...wake, cadence: clock } }, 90)).toThrow(RangeError)
    const events = { ...wake.cadence, schedule: null }
    expect(() => withInterval({ ...design, wake: { ...wake, cadence: events } }, 90)).toThrow(RangeError)
  })

  it('make a cell larger with its resistance smaller in proportion, of any size or of fixed size', () => {
    const fixed = findCell('LR6')
    if (fixed === null) throw new Error('there is no LR6')
    const { pack } = design.supply
    for (const cell of [pack.cell, fixed]) {
      const twice = withCapacity({ ...pack, cell }, 2 * best(pack.capacity_C))
      expect(best(twice.capacity_C)).toBeCloseTo(2 * best(pack.capacity_C), 9)
      if (cell === fixed)
        expect(twice.cell.resistance_Ohm.y[0] / cell.resistance_Ohm.y[0]).toBeCloseTo(0.5, 12)
    }
    const doubled = withCapacity(pack, 2 * best(pack.capacity_C)).cell.resistance_Ohm.y[0]
    expect(doubled / pack.cell.resistance_Ohm.y[0]).toBeCloseTo(0.5, 12)
  })
})
