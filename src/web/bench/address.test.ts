import fc from 'fast-check'
import { beforeAll, describe, expect, it, vi } from 'vitest'
import type * as Address from './address.ts'

let address: typeof Address
beforeAll(async () => {
  vi.stubGlobal('location', { href: 'http://localhost/bench' })
  vi.stubGlobal('addEventListener', () => {})
  address = await import('./address.ts')
})

/** As exact as an address tells. */
const time = fc.integer({ min: 0, max: 1e9 }).map((x) => x / 1000)
const window = fc
  .tuple(time, time)
  .filter(([a, b]) => a !== b)
  .map(([a, b]) => ({ from_s: Math.min(a, b), to_s: Math.max(a, b) }))
const text = fc.string({ minLength: 1, maxLength: 20 })
const bench = fc.record({
  recording: fc.option(text),
  rate_Hz: fc.option(fc.integer({ min: 1, max: 1e9 })),
  window: fc.option(window),
  notes: fc.array(window, { maxLength: 5 }),
  scale: fc.constantFrom('log' as const, 'linear' as const),
  fits: fc.boolean(),
  instrument: fc.option(text),
  ranges: fc.array(text.filter((each) => each !== '' && !each.includes(';'))),
  voltage_V: fc.option(fc.integer({ min: 1, max: 100 })),
  beside: fc.option(text),
})

describe('the address of the bench', () => {
  it('brings another person to the same view', () => {
    fc.assert(
      fc.property(bench, (each) => {
        const search = new URLSearchParams(address.moreOf(each)).toString()
        expect(address.benchOf(Object.fromEntries(new URLSearchParams(search)))).toEqual(each)
      }),
    )
  })

  it('that makes no sense in places is taken without them', () => {
    const odd = fc.dictionary(
      fc.constantFrom('from', 'to', 'rate', 'notes', 'scale', 'voltage', 'height'),
      fc.string(),
    )
    fc.assert(
      fc.property(odd, (more) => {
        const { window, notes, rate_Hz, voltage_V } = address.benchOf(more)
        for (const span of [window, ...notes]) if (span !== null) expect(span.from_s).toBeLessThan(span.to_s)
        for (const value of [rate_Hz, voltage_V]) if (value !== null) expect(value).toBeGreaterThan(0)
      }),
    )
    expect(address.benchOf({ notes: '5~3_x~1_1~2', from: '3', to: '1' })).toMatchObject({
      window: null,
      notes: [{ from_s: 1, to_s: 2 }],
    })
  })
})
