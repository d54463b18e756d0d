/** Statistics and exports of spans over the routes, and questions that make no sense. */
import fc from 'fast-check'
import { parquetReadObjects } from 'hyparquet'
import { describe, expect, it } from 'vitest'
import { ask, bench, currents, RATE_Hz, refusal, SAMPLES } from '../../test/pulse-bench.ts'
import type { SpanAnswer } from '../api/bench.ts'
import { MOST_TEXT } from './request-body.ts'

describe('statistics of a span', () => {
  it('are those of the direct sum, the samples that its ends cut counted in part', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.double({ min: 0, max: 39, noNaN: true }),
        fc.double({ min: 1e-3, max: 1, noNaN: true }),
        async (from, length) => {
          const to = from + length
          const answer = (await (
            await ask('/statistics', { file: 'pulse.csv', from, to })
          ).json()) as SpanAnswer
          let charge_C = 0
          for (let i = 0; i < SAMPLES; i++) {
            const inside = Math.min((i + 1) / RATE_Hz, to) - Math.max(i / RATE_Hz, from)
            if (inside > 0) charge_C += currents[i] * inside
          }
          expect(Math.abs(answer.charge_C - charge_C)).toBeLessThan(1e-9 * charge_C + 1e-18)
        },
      ),
      { numRuns: 60, seed: 3 },
    )
  })

  it('come with quantiles, and with a histogram that adds up to the time', async () => {
    const answer = (await (
      await ask('/statistics', { file: 'pulse.csv', from: 0, to: 40 })
    ).json()) as SpanAnswer
    // 80 % of the time at 5 µA, so half of it is below that; the 95 % quantile is at 2 mA.
    expect(answer.quantiles_A[1]!).toBeCloseTo(5e-6, 9)
    expect(answer.quantiles_A[2]!).toBeCloseTo(2e-3, 6)
    const { edges_A, duration_s, notAbove_s } = answer.histogram
    expect(edges_A.length).toBe(duration_s.length + 1)
    expect(notAbove_s).toBe(0)
    expect(duration_s.reduce((a, b) => a + b, 0)).toBeCloseTo(40, 9)
    const restBin = edges_A.findIndex((edge, k) => edge <= 5e-6 && 5e-6 < edges_A[k + 1])
    expect(duration_s[restBin]).toBeCloseTo(32, 1)
  })

  it('of a span that misses the recording are refused', async () => {
    const response = await ask('/statistics', { file: 'pulse.csv', from: 50, to: 60 })
    expect(response.status).toBe(422)
    expect(await refusal(response)).toMatch(/^pulse\.csv: .*holds nothing/)
  })
})

describe('an export', () => {
  const exported = (format: string) => ask('/export', { file: 'pulse.csv', from: 23.45, to: 23.46, format })

  it('downloads the samples of the span under a name of its own', async () => {
    const response = await exported('csv')
    expect(response.headers.get('content-disposition')).toBe("attachment; filename*=UTF-8''pulse-part.csv")
    const lines = (await response.text()).trim().split('\n')
    expect(lines).toEqual([
      'time_s,current_A',
      ...Array.from({ length: 10 }, (_, k) => `${(23_450 + k) / 1000},${k === 6 ? 0.4 : 0.000005}`),
    ])
  })

  it('to NumPy and Parquet holds the same', async () => {
    const npy = new Uint8Array(await (await exported('npy')).arrayBuffer())
    expect([...npy.subarray(0, 6)]).toEqual([0x93, ...Buffer.from('NUMPY')])
    const parquet = await (await exported('parquet')).arrayBuffer()
    const rows = await parquetReadObjects({ file: parquet })
    expect(rows.map(({ current_A }) => current_A)).toEqual([...currents.subarray(23_450, 23_460)])
  })

  it('of no known format, or of nothing, is refused', async () => {
    expect((await exported('exe')).status).toBe(422)
    expect((await ask('/export', { file: 'pulse.csv', from: 99, to: 100, format: 'csv' })).status).toBe(422)
  })

  it('that nobody takes to its end lets go of the recording', async () => {
    const response = await ask('/export', { file: 'pulse.csv', from: 0, to: 40, format: 'csv' })
    await response.body!.cancel()
    expect((await exported('csv')).status).toBe(200)
  })
})

describe('any question', () => {
  const odd = fc.oneof(
    fc.constantFrom('', '0', '-1', '1e308', '-1e308', '1e-308', 'NaN', '0x10', ' 5 ', '../x', '%00', '40'),
    fc.double().map(String),
    fc.string({ maxLength: 20 }),
  )
  it('is answered or refused, and is never our fault', async () => {
    const file = fc.oneof(fc.constantFrom('pulse.csv', 'untimed.f32', '..', 'out.csv'), fc.string())
    const query = fc.record(
      { file, rate: odd, from: odd, to: odd, buckets: odd, format: odd, exact: fc.constantFrom('yes', 'no') },
      { requiredKeys: ['file'] },
    )
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom('', '/view', '/statistics', '/export'),
        query,
        async (route, asked) => {
          const response = await ask(route, asked)
          await response.arrayBuffer()
          expect([200, 400, 403, 404, 422]).toContain(response.status)
        },
      ),
      { numRuns: 400, seed: 5 },
    )
    expect(bench.faults).toEqual([])
  })

  it('of work with a text that is too long is refused', async () => {
    const outpost = { file: 'gauge.outpost.yaml', text: 'x'.repeat(MOST_TEXT + 1), variant: null }
    const match = { file: 'pulse.csv', rate_Hz: null, instrument: null, outpost, maps: [], where: 'rail' }
    expect((await bench.send('POST', '/api/work', { work: 'adopt', ...match })).status).toBe(413)
  })
})
