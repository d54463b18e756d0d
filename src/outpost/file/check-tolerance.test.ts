import { expect, test } from 'vitest'
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { quantileOf } from '../../quantity/spread.ts'
import { readOutpost } from './read.ts'
import { describeSlips } from './slips.contract.ts'
import { SOLAR } from './solar-outpost.contract.ts'

describeSlips('a tolerance', SOLAR, [
  ['tolerance-below-zero', 'draws: 8 mA', 'draws: ¦8 mA ± 300 mA', 'warning'],
  ['tolerance-below-zero', 'rest: 20 µA', 'rest: ¦20 µA [-20 µA, 90 µA]', 'warning'],
  ['tolerance-below-zero', 'peak: 90 mA for 10 ms', 'peak: ¦90 mA for 2 ± 3 ms', 'warning'],
  ['tolerance-below-zero', 'draws: 2 µA, from', 'draws: ¦2 µA ± 3 µA, from', 'warning'],
])

test.each([
  ['rest: 20 µA', 'rest: 20 µA ± 20 µA'],
  ['rest: 20 µA', 'rest: < 20 µA'],
  ['cold lock-out: 0 °C', 'cold lock-out: 0.5 °C ± 2 K'],
  ['longitude: 6.6', 'longitude: 6.6 ± 0.1'],
  ['tilt: 70', 'tilt: 3 ± 5'],
])('no word of one that stays above zero, or may go below: %s as %s', (from, to) => {
  const result = readOutpost(SOLAR.replace(from, to))
  expect((result.ok ? result.warnings : result.diagnostics).map(({ code }) => code)).not.toContain(
    'tolerance-below-zero',
  )
})

// Against the quantile function that the draws are made with.
test.each(['2 µA ± 3 µA', '20 µA [-20 µA, 90 µA]'])('the share told of %s is that of the draws', (text) => {
  const result = readOutpost(SOLAR.replace('rest: 20 µA', `rest: ${text}`))
  const said = result.ok ? result.warnings.find(({ code }) => code === 'tolerance-below-zero') : undefined
  const share = Number(/([\d.]+) % of all draws/.exec(said?.message ?? '')?.[1]) / 100
  const parsed = parseUncertain(text, 'current')
  const draws = Array.from({ length: 10_000 }, (_, i) =>
    parsed.ok ? quantileOf(parsed.value, (i + 0.5) / 10_000) : 0,
  )
  expect(draws.filter((each) => each < 0).length / 10_000).toBeCloseTo(share, 2)
})
