/** What matters and thrift, driven as commands; small samples, so that the answers come quickly. */
import { describe, expect, it } from 'vitest'
import { interrupted, overwinter } from './run-cli.ts'

const PANEL = 'examples/fjord-tide-hut.outpost.yaml'
const PRIMARY = 'examples/river-ford.outpost.yaml'

describe('overwinter matters', () => {
  it('gives the same answer on one thread and on two', () => {
    const [one, two] = ['1', '2'].map((threads) =>
      overwinter('matters', PANEL, '--rows', '8', '--json', '--threads', threads),
    )
    expect(one.err).toBe('')
    expect(one.code).toBe(0)
    expect(two.out).toBe(one.out)
    const { of, inputs, mends, futures } = JSON.parse(one.out)
    expect(of).toBe('least charge')
    expect(futures).toBe(8 * (2 + inputs.length + mends.length))
    expect(inputs.map(({ name }: { name: string }) => name)).toContain('send batch: how long')
  })

  it('speaks of life where there is no panel', () => {
    const { code, out } = overwinter('matters', PRIMARY, '--rows', '8', '--years', '3')
    expect(code).toBe(0)
    expect(out).toContain('Every life outlasts the 3 years played')
    expect(out).toContain('Mend this: what it would gain in life')
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
  })
})

describe('overwinter thrift', () => {
  const choices = [
    '--runs',
    '24',
    '--intervals',
    '15 min, 1 h',
    '--rows',
    '1',
    '--survive',
    '80 %',
    '--resolution',
    '50 mV',
  ]

  it('gives the same table on one thread and on two, which reports more than the best fixed interval', () => {
    const [one, two] = ['1', '2'].map((threads) =>
      overwinter('thrift', PANEL, ...choices, '--json', '--threads', threads),
    )
    expect(one.err).toBe('')
    expect(two.out).toBe(one.out)
    const { table, bestFixed, bound } = JSON.parse(one.out)
    expect(table.reportsPerDay).toBeGreaterThanOrEqual(bestFixed.reportsPerDay)
    expect(bound.reportsPerDay).toBeGreaterThanOrEqual(table.reportsPerDay)
  })

  it('says why a file cannot have a table', () => {
    const without = overwinter('thrift', PRIMARY)
    expect(without.code).toBe(2)
    expect(without.err).toContain('has no panel')
    const unit = overwinter('thrift', PANEL, '--intervals', '15 min, 1 mile')
    expect(unit.code).toBe(2)
    expect(unit.err).toContain('--intervals')
  })

  it('stops when interrupted', async () => {
    const { code, out } = await interrupted(1500, 'thrift', PANEL)
    expect(code).toBe(130)
    expect(out).toBe('')
  })
})
