import { expect, it } from 'vitest'
import { envelope, exact, step } from '../../test/designs.ts'
import { handedOver } from '../../test/handoff-driver.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { PLAIN } from '../report/terminal.ts'
import { handoffToTerminal } from './handoff-text.ts'

const shown = (wake: Partial<Outpost<number>['wake']>) =>
  handoffToTerminal(handedOver(exact(envelope({ rest_A: 65e-6, ...wake }))), PLAIN)
const every = (minutes: number) =>
  shown({ cadence: { schedule: { kind: 'clock-minutes', minutes }, events: null, thrift: [] } })

it.each([
  [5, '5 min'],
  [90, '1.5 h'],
  [1440, '1 d'],
  [100_000, '100000 min'], // 69.44444444444444 d
])('names an interval of %d minutes exactly, and in few characters', (minutes, words) => {
  expect(every(minutes)).toMatch(new RegExp(`^ {2}0 +– +– +${words.replace('.', '\\.')} +\\d`, 'm'))
})

it('gives no range whose ends are alike', () => {
  const text = shown({})
  expect(text).toMatch(/^ {2}Rest +65 µA$/m)
  expect(text).toContain('the rest current is 65 µA; clearly above that something was')
  expect(text).not.toContain('65 µA to 65 µA')
})

it('lets no control character of a name through', () => {
  const text = shown({ steps: [step({ name: 'send \u001b[2J\u202e' })] })
  expect(text).toContain('"send  [2J "')
  expect(text).not.toMatch(/[\u202e]|(?!\n)\p{Cc}/u)
})
