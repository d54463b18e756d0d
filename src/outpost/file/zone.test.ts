import { describe, expect, test } from 'vitest'
import { namedZone, standardOffset_h } from './zone.ts'

describe('namedZone', () => {
  test.each([
    ['Europe/Oslo', 'Europe/Oslo'],
    ['UTC+1', '+01:00'],
    ['UTC+5:30', '+05:30'],
    ['GMT−3', '-03:00'],
    ['+0930', '+09:30'],
    ['Europe/Olso', null],
    ['UTC+15', null],
    ['tomorrow', null],
  ])('%s is %s', (text, zone) => {
    expect(namedZone(text)).toBe(zone)
  })
})

/** Standard time of the IANA time zone database, as in force in 2025. */
describe('standardOffset_h leaves daylight saving out, north and south', () => {
  test.each([
    ['Europe/Oslo', 1],
    ['Australia/Adelaide', 9.5],
    ['Pacific/Auckland', 12],
    ['America/St_Johns', -3.5],
    ['Asia/Kathmandu', 5.75],
    ['+05:30', 5.5],
  ])('%s is %d h ahead of UTC', (zone, hours) => {
    expect(standardOffset_h(zone)).toBe(hours)
  })

  test('throws on an unknown zone', () => {
    expect(() => standardOffset_h('Europe/Olso')).toThrow(RangeError)
  })
})
