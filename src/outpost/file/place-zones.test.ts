import { expect, test } from 'vitest'
import { BUILT_IN_PLACES } from '../../sky/built-in-place.ts'
import { zoneOfPlace } from './place-zones.ts'
import { readOutpost } from './read.ts'
import { SOLAR } from './solar-outpost.contract.ts'
import { standardOffset_h } from './zone.ts'

// Against the rules of the IANA time zone database, as the platform carries it.
test.each(BUILT_IN_PLACES)('$name has a zone with its standard time', ({ name, zone_h }) => {
  const zone = zoneOfPlace(name)
  expect(zone).not.toBeNull()
  expect(standardOffset_h(zone ?? 'UTC')).toBe(zone_h)
})

const TIMES = SOLAR.replace('rate: 10 min', 'times of day: { at: ["06:00", "18:30"] }').replace(
  '  reports per day: 100\n',
  '',
)
const at = (place: string) =>
  readOutpost(TIMES.replace(/place:\n( {2}.*\n)+( {4}.*\n)+/, `place: ${place}\n`))

test('times of day at a built-in place are those of its clocks', () => {
  const result = at('Oslo')
  expect(result.ok && result.outpost.wake.cadence.schedule).toMatchObject({ zone: 'Europe/Oslo' })
  expect(result.ok && result.assumptions.map(({ text }) => text)).toContain(
    'Europe/Oslo, as the place has it',
  )
})

test('a place of its own that only borrows the weather is asked for its zone', () => {
  const result = at('{ latitude: 61, longitude: 5, weather: { place: Bergen } }')
  expect(result.ok ? [] : result.diagnostics.map(({ code }) => code)).toEqual(['unknown-zone'])
})
