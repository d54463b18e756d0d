/** Comparing and sizing from the shell. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { overwinter } from './run-cli.ts'

const folder = mkdtempSync(join(tmpdir(), 'decisions-'))
const SLEEP = 'examples/windbreak-sleep.outpost.yaml'
const HUT = 'examples/fjord-tide-hut.outpost.yaml'
/** So low an aim that few runs prove it. */
const QUICK = ['--runs', '17', '--years', '1', '--survive', '80 %']

describe('compare FILE', () => {
  const quick = ['compare', SLEEP, '--runs', '80', '--years', '1']

  it('tells the variants side by side, the same for any number of threads', () => {
    const one = overwinter(...quick, '--json', '--threads', '1')
    const two = overwinter(...quick, '--json', '--threads', '2')
    expect(one.out).toBe(two.out)
    const report = JSON.parse(one.out)
    expect(report.variants.map(({ name }: { name: string }) => name)).toEqual([
      'as written',
      'sleep and rejoin',
      'restart on each wake',
      'batch six readings per join',
    ])
    // Sleeping with the radio off beats staying joined, and that is no luck.
    expect(report.variants[1].differences.life_days.isReal).toBe(true)
    expect(report.variants[1].differences.life_days.low).toBeGreaterThan(0)
    expect(one.code).toBe(0)
  })

  it('refuses a file without variants, and says how to add some', () => {
    const bare = readFileSync(SLEEP, 'utf8').replace(/variants:[\s\S]*/, '')
    const path = join(folder, 'bare.outpost.yaml')
    writeFileSync(path, bare)
    const { code, err } = overwinter('compare', path)
    expect(code).toBe(2)
    expect(err).toMatch(/no variants[\s\S]*cure:/)
  })
})

describe('size FILE', () => {
  it('finds cell, panel, interval, frontier and parts, the same for any number of threads', () => {
    const parts = ['--parts', 'examples/parts.yaml', '--objective', 'weight']
    const one = overwinter('size', HUT, ...QUICK, ...parts, '--json', '--threads', '1')
    const two = overwinter('size', HUT, ...QUICK, ...parts, '--json', '--threads', '2')
    expect(one.out).toBe(two.out)
    expect(one.code).toBe(0)
    const { study, parts: chosen } = JSON.parse(one.out)
    expect(study.smallestCell.survival.low).toBeGreaterThanOrEqual(0.8)
    expect(study.frontier.smallest).toHaveLength(5)
    for (const cheaper of chosen.cheaper) expect(cheaper.cost).toBeLessThanOrEqual(chosen.cheapest.cost)
  })

  it('points at what is wrong in a parts list', () => {
    const path = join(folder, 'parts.yaml')
    writeFileSync(path, readFileSync('examples/parts.yaml', 'utf8').replace('600 mAh', '600 mV'))
    const { code, err } = overwinter('size', HUT, ...QUICK, '--parts', path)
    expect(code).toBe(2)
    expect(err).toMatch(/parts\.yaml:\d+:\d+: error/)
  })

  it('names the columns there are when asked for one there is not', () => {
    const { code, err } = overwinter(
      'size',
      HUT,
      ...QUICK,
      '--parts',
      'examples/parts.yaml',
      '--objective',
      'beauty',
    )
    expect(code).toBe(2)
    expect(err).toMatch(/"price", "weight", "size"/)
  })

  it('leaves with 1 where no combination of the parts suffices', () => {
    const path = join(folder, 'tiny.yaml')
    writeFileSync(
      path,
      'cells:\n  - { name: crumb, type: Li-ion, capacity: 40 mAh, price: 1 }\npanels:\n  - { name: splinter, rated: 5 mW at 5.6 V, price: 1 }\n',
    )
    const { code, out } = overwinter('size', HUT, ...QUICK, '--parts', path)
    expect(code).toBe(1)
    expect(out).toMatch(/No\s+combination\s+of\s+the\s+parts\s+listed\s+suffices/)
  })
})
