import fc from 'fast-check'
import { expect, test, vi } from 'vitest'

vi.stubGlobal('location', new URL('http://localhost/start'))
vi.stubGlobal('addEventListener', () => {})
const { addressOf, PAGES, routeOf } = await import('./route.ts')

test('an address leads back to the view that it was made from', () => {
  const text = fc.string({ minLength: 1, unit: 'grapheme' })
  fc.assert(
    fc.property(
      fc.constantFrom(...PAGES),
      fc.option(text),
      fc.option(text),
      fc.dictionary(fc.constantFrom('every', 'from', 'to', 'recording'), text),
      (page, file, variant, more) => {
        const route = { page, file, variant, more }
        expect(routeOf(new URL(addressOf(route), 'http://localhost'))).toEqual(route)
      },
    ),
  )
})

test('an unknown page is the first', () => {
  expect(routeOf(new URL('http://localhost/nowhere')).page).toBe('start')
})
