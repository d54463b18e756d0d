/** The JSON Schema against an independent validator (ajv), and against the reader. */
import { readdirSync, readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { readOutpost } from './read.ts'
import { outpostJsonSchema } from './schema.ts'
import { SOLAR } from './solar-outpost.contract.ts'

const root = new URL('../../../', import.meta.url)
const validate = new Ajv2020({ strict: false, allErrors: true }).compile(outpostJsonSchema())
const examples = readdirSync(new URL('examples/', root)).filter((name) => name.endsWith('.outpost.yaml'))

describe('outpostJsonSchema', () => {
  test.each(examples)('takes %s', (name) => {
    const data: unknown = parse(readFileSync(new URL(`examples/${name}`, root), 'utf8'))
    validate(data)
    expect(validate.errors ?? []).toEqual([])
  })

  test.each([
    ['a misspelt key', 'draws: 8 mA', 'drws: 8 mA'],
    ['a missing section', 'rest: 20 µA\n', ''],
    ['a kind that is not there', 'kind: linear, output', 'kind: liner, output'],
    ['a key of another kind', 'kind: linear, output', 'kind: linear, efficiency: 85 %, output'],
    ['a number where a text with its unit belongs', 'for: 1 s', 'for: 1'],
    ['a count that is not whole', 'times: 2', 'times: 1.5'],
    ['another version', 'overwinter: 1', 'overwinter: 2'],
  ])('refuses %s, as the reader does', (_, from, to) => {
    expect(validate(parse(SOLAR))).toBe(true)
    expect(validate(parse(SOLAR.replace(from, to)))).toBe(false)
  })

  test.each([
    ['rest: 20 µA', 'rest: 0'],
    ['rest: 20 µA', 'rest: { is: 0, source: by its data sheet }'],
    ['backoff: 5 s', 'backoff: 0'],
    ['elevation: 4 m', 'elevation: 0'],
    ['leakage: 1 µA', 'leakage: 0'],
    ['drop-out: 150 mV', 'drop-out: 0'],
  ])('takes zero without a unit, as the reader does: %s as %s', (from, to) => {
    const text = SOLAR.replace(from, to)
    expect(validate(parse(text))).toBe(true)
    expect(readOutpost(text).ok).toBe(true)
  })

  test.each([
    ['for: 1 s', 'for: 0'],
    ['rest: 20 µA', 'rest: 1'],
    ['cold lock-out: 0 °C', 'cold lock-out: 0'],
  ])('refuses a number without a unit, as the reader does: %s as %s', (from, to) => {
    const text = SOLAR.replace(from, to)
    expect(validate(parse(text))).toBe(false)
    expect(readOutpost(text).ok).toBe(false)
  })

  test('describes every key, so that an editor can', () => {
    const bare: string[] = []
    visit(outpostJsonSchema(), '')
    expect(bare).toEqual([])

    function visit(node: unknown, path: string): void {
      if (typeof node !== 'object' || node === null) return
      if ('properties' in node && typeof node.properties === 'object' && node.properties !== null)
        for (const [key, field] of Object.entries(node.properties))
          if (!('description' in field) && !('const' in field)) bare.push(`${path}.${key}`)
      for (const [key, child] of Object.entries(node))
        visit(child, key === 'properties' ? path : `${path}.${key}`)
    }
  })
})
