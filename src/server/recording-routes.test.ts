/** Questions about recordings over the routes, beside the samples themselves and beside the engine. */
import { readdirSync, rmSync, symlinkSync, utimesSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  ask,
  bench,
  CSV,
  currents,
  imported,
  RATE_Hz,
  refusal,
  SAMPLES,
  SPIKE,
} from '../../test/pulse-bench.ts'
import { allTold, benchWith } from '../../test/workbench-app.ts'
import type { Imported } from '../api/bench.ts'

describe('an import', () => {
  it('tells what was read, and from then on it is there at once', async () => {
    const told = await imported('pulse.csv')
    expect(told).toMatchObject({
      event: 'done',
      answer: { file: 'pulse.csv', samples: SAMPLES, interval_s: 1e-3, flaws: [], hasVoltage: false },
    })
    const known = (await (await ask('', { file: 'pulse.csv' })).json()) as Imported
    expect(known).toEqual('answer' in told && told.answer)
    expect(known.max_A).toBeCloseTo(0.4, 7)
  })

  it('keeps recordings in the folder, as the command does, and nothing else', () => {
    expect(readdirSync(join(bench.folder, '.overwinter'))).toEqual(['recordings'])
  })

  it('of a source without times asks for the rate, and takes it', async () => {
    expect(await imported('untimed.f32')).toMatchObject({
      event: 'refused',
      isOurs: false,
      why: 'untimed.f32 cannot be read: there is no time in this source; give the sampling rate.',
    })
    expect(await imported('untimed.f32', 500)).toMatchObject({ answer: { duration_s: SAMPLES / 500 } })
    expect(await (await ask('', { file: 'untimed.f32' })).json()).toBeNull()
    expect(await (await ask('', { file: 'untimed.f32', rate: 500 })).json()).toMatchObject({
      samples: SAMPLES,
    })
  })

  it('says in a sentence what cannot be read, and leaves nothing half made', async () => {
    expect(await imported('sub/words.csv')).toMatchObject({ event: 'refused', isOurs: false })
    const kept = readdirSync(join(bench.folder, '.overwinter/recordings'))
    expect(kept.filter((name) => name.startsWith('.partial'))).toEqual([])
  })

  it.each([
    '../secret.csv',
    '/etc/passwd',
    'out.csv',
    '.overwinter/recordings',
    'notes.txt',
    'gauge.outpost.yaml',
    '',
  ])('of %s is refused', async (file) => {
    expect(await imported(file)).toMatchObject({ event: 'refused', isOurs: false })
  })

  it('of a source that was written since is wanted anew', async () => {
    const again = benchWith({ 'pulse.csv': CSV })
    const asked = { work: 'import', file: 'pulse.csv', rate_Hz: null }
    await allTold(await again.send('POST', '/api/work', asked))
    const there = async () => (await again.ask('/api/recording?file=pulse.csv')).json()
    expect(await there()).not.toBeNull()
    utimesSync(join(again.folder, 'pulse.csv'), 1e9, 1e9)
    expect(await there()).toBeNull()
    expect((await again.ask('/api/recording/statistics?file=pulse.csv&from=0&to=1')).status).toBe(404)
    await allTold(await again.send('POST', '/api/work', asked))
    expect(await there()).not.toBeNull()
    rmSync(join(again.folder, '.overwinter'), { recursive: true })
    expect(await there()).toBeNull()
    again.close()
  })

  it('never follows a link out of the folder', async () => {
    const linked = benchWith({ 'pulse.csv': CSV })
    symlinkSync('..', join(linked.folder, '.overwinter'))
    const asked = { work: 'import', file: 'pulse.csv', rate_Hz: null }
    expect((await allTold(await linked.send('POST', '/api/work', asked))).at(-1)).toMatchObject({
      event: 'refused',
      why: expect.stringContaining('a link to elsewhere'),
    })
    expect((await linked.send('POST', '/api/uploads', { name: 'a.csv', bytes: 1 })).status).toBe(403)
    linked.close()
  })
})

async function viewed(from: number, to: number, buckets: number, more = {}) {
  const response = await ask('/view', { file: 'pulse.csv', from, to, buckets, ...more })
  expect(response.status).toBe(200)
  return { holds: response.headers.get('x-holds'), bytes: await response.arrayBuffer() }
}

describe('a view', () => {
  it('holds the least, most and mean of the samples of each bucket', async () => {
    const { holds, bytes } = await viewed(0, 40, 40)
    const values = new Float32Array(bytes)
    expect(holds).toBe('buckets')
    expect(values.length).toBe(160)
    const [min, max, mean, covered] = [0, 1, 2, 3].map((k) => values.subarray(40 * k, 40 * k + 40))
    expect(min[3]).toBeCloseTo(5e-6, 12)
    expect(max[3]).toBeCloseTo(2e-3, 9)
    // 200 of 1000 samples at 2 mA; nodes of 64 samples are taken whole, so an edge may be off by a quarter of a bucket.
    expect(Math.abs(mean[3] / (0.2 * 2e-3 + 0.8 * 5e-6) - 1)).toBeLessThan(0.35)
    expect(covered[3]).toBeGreaterThan(0.75)
    expect(max[23]).toBeCloseTo(0.4, 7)
  })

  it('shows a spike of one sample in every width of bucket', async () => {
    for (let buckets = 1; buckets <= 8192; buckets *= 2) {
      const max = new Float32Array((await viewed(0, 40, buckets)).bytes).subarray(buckets, 2 * buckets)
      const at = max.findIndex((x) => x > 0.3)
      expect(Math.abs((at + 0.5) * (40 / buckets) - SPIKE / RATE_Hz)).toBeLessThan(40 / buckets + 1e-3)
    }
  })

  it('keeps its buckets where they were asked for, beyond both ends', async () => {
    const values = new Float32Array((await viewed(-10, 70, 80)).bytes)
    const covered = [...values.subarray(240, 320)]
    expect(covered.slice(0, 9)).toEqual(Array(9).fill(0))
    expect(covered[30]).toBeGreaterThan(0.75)
    expect(covered.slice(51)).toEqual(Array(29).fill(0))
    expect((await viewed(1000, 2000, 5)).bytes.byteLength).toBe(80)
  })

  it('from near is the samples themselves, where they were asked for', async () => {
    const { holds, bytes } = await viewed(23.4501, 23.4602, 8, { exact: 'yes' })
    const values = new Float64Array(bytes)
    expect(holds).toBe('samples')
    const count = values.length / 3
    expect(count).toBe(11)
    for (let k = 0; k < count; k++) {
      expect(values[k]).toBeCloseTo((23_450 + k) / RATE_Hz, 9)
      expect(values[count + k]).toBeCloseTo((23_451 + k) / RATE_Hz, 9)
      expect(values[2 * count + k]).toBe(currents[23_450 + k])
    }
    expect((await viewed(23, 24, 8, { exact: 'yes' })).holds).toBe('buckets')
  })

  it.each([
    ['buckets', { from: 0, to: 1, buckets: 0 }],
    ['buckets', { from: 0, to: 1, buckets: 8193 }],
    ['buckets', { from: 0, to: 1, buckets: 1.5 }],
    ['buckets', { from: 0, to: 1 }],
    ['from', { from: 'x', to: 1, buckets: 8 }],
    ['to', { from: 0, to: 'Infinity', buckets: 8 }],
    ['A span ends after it begins', { from: 1, to: 1, buckets: 8 }],
    ['A sampling rate', { from: 0, to: 1, buckets: 8, rate: -1 }],
  ] as const)('refuses a wrong %s in words', async (word, query) => {
    const response = await ask('/view', { file: 'pulse.csv', ...query } as Record<string, string | number>)
    expect(response.status).toBe(422)
    expect(await refusal(response)).toContain(word)
  })

  it('of what was not imported says so', async () => {
    const response = await ask('/view', { file: 'sub/words.csv', from: 0, to: 1, buckets: 8 })
    expect(response.status).toBe(404)
    expect(await refusal(response)).toContain('is not imported')
    expect((await ask('/view', { file: '../secret.csv', from: 0, to: 1, buckets: 8 })).status).toBe(403)
    expect((await ask('/view', { file: 'none.csv', from: 0, to: 1, buckets: 8 })).status).toBe(404)
  })
})
