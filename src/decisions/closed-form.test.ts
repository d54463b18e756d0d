import { describe, expect, it } from 'vitest'
import { sunlit } from '../../test/designs.ts'
import { offGridSum } from './closed-form.ts'

describe('the sum on paper', () => {
  const sum = offGridSum(sunlit, 144)

  it('takes load and autonomy as a pencil would', () => {
    // 144 wakes of 4 s at 80 mA and a peak of 10 ms at 300 mA; rest 20 + 5 + 4 µA, charger 3 µA half the time.
    const wake_C = 4 * 0.08 + 0.01 * 0.22
    const load_C = 144 * wake_C + 20e-6 * (86_400 - 144 * 4) + 86_400 * (5e-6 + 4e-6 + 1.5e-6)
    expect(Math.abs(sum.load_C / load_C - 1)).toBeLessThan(1e-3)
    expect(sum.autonomy_days).toBeCloseTo(sum.usable_C / sum.load_C, 12)
    // At 1 °C a lithium-ion cell gives less than at 20 °C, and four fifths of that count.
    expect(sum.usable_C / 7200).toBeGreaterThan(0.6)
    expect(sum.usable_C / 7200).toBeLessThan(0.8)
  })

  it('finds December or January the worst month at 58° N, and weighs the panel by its hours of full sun', () => {
    const { array } = sum
    if (array === null) throw new Error('there is a panel')
    expect([11, 0]).toContain(array.worstMonth)
    const fullSun_s = array.light_J_m2 / 1000
    expect(array.charge_C / (0.08 * fullSun_s * 0.95)).toBeGreaterThan(0.95) // what the cell gives back
    expect(array.charge_C / (0.08 * fullSun_s * 0.95)).toBeLessThanOrEqual(1)
    expect(array.toLoad).toBeCloseTo(array.charge_C / sum.load_C, 12)
  })

  it('has no array where there is no panel', () => {
    const bare = { ...sunlit, supply: { ...sunlit.supply, panel: null, charger: null } }
    expect(offGridSum(bare, 144).array).toBeNull()
  })
})
