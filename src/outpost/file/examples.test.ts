/** The examples read without a word, variants included, and cover what they are there to show. */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { best } from '../../quantity/spread.ts'
import { resolve } from '../inputs.ts'
import { brokenRules } from '../invariants.ts'
import type { Outpost } from '../outpost.ts'
import { readOutpost } from './read.ts'

const folder = new URL('../../../examples/', import.meta.url)
const names = readdirSync(folder).filter((name) => name.endsWith('.outpost.yaml'))

function outpostOf(name: string): Outpost {
  const result = readOutpost(readFileSync(new URL(name, folder), 'utf8'))
  if (!result.ok) throw new Error(`${name}: ${result.diagnostics.map(({ message }) => message).join('; ')}`)
  return result.outpost
}

describe.each(names)('%s', (name) => {
  const text = readFileSync(new URL(name, folder), 'utf8')

  test('reads without a word, and so do its variants', () => {
    const result = readOutpost(text)
    expect(result.ok ? result.warnings : result.diagnostics).toEqual([])
    expect(result.ok && result.variants.length).toBeGreaterThan(0)
  })

  test('is sound', () => {
    expect(brokenRules(resolve(outpostOf(name), best))).toEqual([])
  })

  test('has comments, sources, and a schema for editors', () => {
    expect(text).toMatch(/^# yaml-language-server: \$schema=\.\.\/schema\/outpost\.schema\.json\n# \w/)
    expect(text).toContain('source:')
    expect(text).toContain('±')
  })
})

describe('between them the examples show', () => {
  const outposts = names.map(outpostOf)
  test.each<[string, (outpost: Outpost) => boolean]>([
    ['a primary cell for ten years', (o) => o.supply.pack.cell.charging === null && o.aims.years === 10],
    [
      'a coin cell with radio bursts',
      (o) => /^CR2/.test(o.supply.pack.cell.name) && o.wake.steps.some((s) => s.peak),
    ],
    [
      'lithium and a panel at 58° N',
      (o) => o.supply.panel !== null && Math.floor(o.place.latitude_deg) === 58,
    ],
    ['a supercapacitor alone', (o) => o.supply.pack.cell.chemistry === 'supercapacitor'],
    [
      'an alarm with a restart on every wake',
      (o) => o.wake.cadence.schedule?.kind === 'clock-minutes' && o.wake.resume === 'restart',
    ],
    ['random events', (o) => o.wake.cadence.events !== null],
    ['a thrift table', (o) => o.wake.cadence.thrift.length > 0],
    ['the southern hemisphere', (o) => o.place.latitude_deg < 0],
  ])('%s', (_, shows) => {
    expect(outposts.some(shows)).toBe(true)
  })
})
