import { describe, expect, it } from 'vitest'
import { gridRate } from './grid-rate.ts'

const lasting = (duration_s: number) => [{ duration_s, probability: 1 }]

describe('alarms among random events', () => {
  // Erlang's loss formula (1917) for one server: a moment far from the last alarm finds it busy with λD / (1 + λD).
  it.each([
    [86_400, 1000, 5],
    [604_800, 200, 5],
    [86_400, 50, 600],
  ])(
    'on a tick of %d s with %d events a day and work of %d s are lost as Erlang says',
    (tick_s, perDay, work_s) => {
      const events_per_s = perDay / 86_400
      const { alarmsPerSecond } = gridRate(tick_s, 1, lasting(work_s), events_per_s)
      expect(Math.abs(alarmsPerSecond * tick_s * (1 + events_per_s * work_s) - 1)).toBeLessThan(2e-4)
    },
  )
  it('are all there is when events are almost never', () => {
    const { perSecond, alarmsPerSecond } = gridRate(60, 5, lasting(7), 1e-12)
    expect(perSecond * 300).toBeCloseTo(1, 9)
    expect(alarmsPerSecond * 300).toBeCloseTo(1, 9)
  })
  it('fill the idle time with events at their own rate: each wake is an alarm or an event at rest', () => {
    const events_per_s = 0.02
    const { perSecond, alarmsPerSecond } = gridRate(60, 2, lasting(31), events_per_s)
    const idle = 1 - perSecond * 31
    expect(perSecond - alarmsPerSecond).toBeCloseTo(events_per_s * idle, 10)
  })
})
