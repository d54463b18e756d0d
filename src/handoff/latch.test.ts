import { describe, expect, it } from 'vitest'
import { envelope, step, sunlit } from '../../test/designs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { cellOf } from '../supply/cell-catalogue.ts'
import { coldestNight_C, type LatchResult, latchOf } from './latch.ts'

const withSupply = (supply: Partial<Outpost<number>['supply']>): Outpost<number> => ({
  ...sunlit,
  supply: { ...sunlit.supply, ...supply },
})

function latchIn(result: LatchResult) {
  if ('obstacle' in result) throw new Error(result.obstacle.message)
  return result.latch
}

describe('the low-battery latch', () => {
  it('puts the drop-out of a linear regulator on top of the brown-out threshold', () => {
    // 2.7 V at the rail and 0.1 V of drop-out.
    expect(latchIn(latchOf(sunlit))).toMatchObject({ brownout_mV: 2800, restart_mV: 3500 })
  })

  it('is set by the empty cell where no burst can pull its voltage down: without resistance', () => {
    const { supply, wake } = envelope({ steps: [step({ peak: { current_A: 5, duration_s: 0.1 } })] })
    const ideal = { ...sunlit, wake, supply: { ...supply, brownout: { at_V: 2, restart_V: 2.5 } } }
    const { low_mV, because } = latchIn(latchOf(ideal))
    expect(because).toBe('the cell is empty')
    expect(low_mV).toBeGreaterThan(2000)
  })

  it('rises with the burst, and names the step that sets it', () => {
    const lows = [0.3, 0.8, 1.2].map((current_A) => {
      const wake = { ...sunlit.wake, steps: [step({ peak: { current_A, duration_s: 0.5 } })] }
      return latchIn(
        latchOf({ ...sunlit, wake, supply: { ...sunlit.supply, brownout: { at_V: 2.9, restart_V: 3.6 } } }),
      )
    })
    expect(lows[1].low_mV).toBeGreaterThan(lows[0].low_mV)
    expect(lows[2].low_mV).toBeGreaterThan(lows[1].low_mV)
    expect(lows[2].because).toContain('"send"')
  })

  it('starts again no lower than it stops, whatever "restart above" says', () => {
    const { brownout } = sunlit.supply
    for (const restart_V of [2.7, 2.9, 3.3, 3.8]) {
      const { low_mV, restart_mV } = latchIn(latchOf(withSupply({ brownout: { ...brownout, restart_V } })))
      expect(restart_mV).toBe(Math.max(low_mV, 1000 * restart_V))
    }
  })

  it('refuses a battery that is low when full', () => {
    const tiny = { ...sunlit.supply.pack, cell: cellOf('Li-ion', 40), capacity_C: 40 }
    expect(latchOf(withSupply({ pack: tiny, capacitor: null }))).toMatchObject({
      obstacle: { code: 'low-when-full', path: ['supply', 'brownout'] },
    })
  })

  it('is made for the nights of the coldest month: mean less half the daily range', () => {
    expect(coldestNight_C(sunlit)).toBe(-1.5) // February: 1 °C and 5 K
  })
})
