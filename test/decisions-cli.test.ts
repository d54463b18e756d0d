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

  it('takes the values of its frontier, in whatever order they stand', () => {
    const usual = JSON.parse(overwinter('size', HUT, ...QUICK, '--json').out)
    const { capacities_C, powers_W, intervals_s } = usual.frontier
    const cells = [capacities_C[8], capacities_C[5]].map((charge_C) => `${charge_C / 3.6} mAh`)
    const panels = powers_W.map((power_W: number) => `${Number((1000 * power_W).toPrecision(6))} mW`)
    const axes = ['--cells', cells.join(', '), '--panels', panels.join(', '), '--intervals', '20 min,600 s']
    const asked = JSON.parse(overwinter('size', HUT, ...QUICK, ...axes, '--json').out)
    expect(asked.frontier.capacities_C).toEqual([capacities_C[5], capacities_C[8]])
    expect(asked.frontier.intervals_s).toEqual([600, 1200])
    // The same runs judge the same designs, whichever others are looked at: it is a part of the usual frontier.
    const told = (sized: Record<string, unknown> | null) =>
      sized && { panel_W: sized.panel_W, survival: sized.survival, runs: sized.runs }
    const of600 = usual.study.frontier.smallest[intervals_s.indexOf(600)]
    const of1200 = usual.study.frontier.smallest[intervals_s.indexOf(1200)]
    expect(asked.study.frontier.smallest.map((row: never[]) => row.map(told))).toEqual(
      [of600, of1200].map((row) => [row[5], row[8]].map(told)),
    )
    expect(of1200[8]).not.toBeNull()
    expect(told(asked.study.smallestCell)).toEqual(told(usual.study.smallestCell))
  })

  it('draws a frontier wider than a terminal in parts', () => {
    const cells = Array.from({ length: 14 }, (_, i) => `${600 + 100 * i} mAh`).join(',')
    const axes = ['--cells', cells, '--panels', '300 mW', '--intervals', '15 min']
    const { out } = overwinter('size', HUT, ...QUICK, ...axes)
    expect(out.match(/^ {2}15 min/gm)).toHaveLength(2)
    expect(out).toMatch(
      /the\s+cells,\s+panels\s+and\s+intervals\s+of\s+the\s+frontier\s+are\s+those\s+asked\s+for/,
    )
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
  })

  it.each([
    ['--cells', '400 mAh, 1 V', 'measures a voltage, and a charge is asked for'],
    ['--cells', '5', 'has no unit'],
    ['--cells', '', 'it is empty'],
    ['--cells', '400 mAh,, 1 Ah', 'nothing stands in place 2 of 3'],
    ['--cells', '400 mAh, 0.4 Ah', '"400 mAh" and "0.4 Ah" are the same'],
    ['--cells', Array.from({ length: 25 }, (_, i) => `${i + 1} Ah`).join(), 'at most 24'],
    ['--panels', '1 W, 1 W', '"1 W" stands in it twice'],
    ['--panels', '1 W, 20 kW', 'each panel from 1 mW to 10 kW'],
    ['--intervals', '5 min, 0.1 s', 'each interval from 1 s to a year'],
  ])('refuses %s "%s"', (option, list, why) => {
    const { code, err, out } = overwinter('size', HUT, option, list)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toContain(why)
  })

  it.each([
    ['examples/river-ford.outpost.yaml', ['--panels', '1 W'], 'has no panel'],
    ['examples/river-ford.outpost.yaml', ['--intervals', '90 s, 5 min'], 'cannot wait 1.5 min'],
    ['examples/bat-box-ultrasound.outpost.yaml', ['--intervals', '5 min'], 'no interval to change'],
  ])('says what %s cannot have: %s', (file, options, why) => {
    const { code, err } = overwinter('size', file, ...options)
    expect(code).toBe(2)
    expect(err).toContain(why)
    expect(err).toMatch(/expected:[\s\S]*cure:/)
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
