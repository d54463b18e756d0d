import { expect, test } from 'vitest'
import { scaledText } from './scaled-text.ts'

test.each([
  ['600 mAh ± 6 %', 2, '1200 mAh ± 6 %'],
  ['600 mAh ± 30 mAh', 0.5, '300 mAh ± 15 mAh'],
  ['5.6 V at 22.5 mA', 2, '5.6 V at 45 mA'],
  ['1 W at 6 V', 1.25, '1.25 W at 6 V'],
  ['20..35 mA', 2, '40..70 mA'],
  ['10 F', 3, '30 F'],
  ['2.4Ah', 0.333, '0.799Ah'],
])('%s times %f is %s', (text, factor, wanted) => {
  expect(scaledText(text, factor)).toBe(wanted)
})

test('a text without a size is left alone', () => {
  expect(scaledText('a lot', 2)).toBeNull()
  expect(scaledText('3.3 V', 2)).toBeNull()
})
