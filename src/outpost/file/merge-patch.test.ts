import { describe, expect, test } from 'vitest'
import { mergePatch } from './merge-patch.ts'

const merged = (base: unknown, patch: unknown) => mergePatch(base, patch, ['variants', 'v']).value

/** The example cases of RFC 7396, appendix A, whose patch is an object or replaces one. */
const RFC_7396 = [
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
] as const

const FILE = {
  wake: {
    steps: [
      { name: 'sense', for: '1 s' },
      { name: 'log', for: '2 s' },
      { name: 'send', for: '3 s' },
    ],
  },
}

describe('mergePatch', () => {
  test.each(RFC_7396)('RFC 7396, appendix A: %j patched by %j', (base, patch, result) => {
    expect(merged(base, patch)).toEqual(result)
  })

  test('patches and removes named entries, and keeps the order', () => {
    expect(merged(FILE, { wake: { steps: { send: { every: 6 }, log: null } } })).toEqual({
      wake: {
        steps: [
          { name: 'sense', for: '1 s' },
          { name: 'send', for: '3 s', every: 6 },
        ],
      },
    })
  })

  test('leads each path back to where the file says it', () => {
    const { origin } = mergePatch(FILE, { wake: { steps: { send: { every: 6 }, log: null } } }, [
      'variants',
      'v',
    ])
    expect(origin(['wake', 'steps', 1, 'every'])).toEqual(['variants', 'v', 'wake', 'steps', 'send', 'every'])
    expect(origin(['wake', 'steps', 1, 'for'])).toEqual(['wake', 'steps', 2, 'for'])
    expect(origin(['wake', 'steps', 0, 'for'])).toEqual(['wake', 'steps', 0, 'for'])
    expect(origin(['rest'])).toEqual(['rest'])
  })

  test('names the entries that the list does not have', () => {
    const { strangers } = mergePatch(FILE, { wake: { steps: { sned: { every: 6 } } } }, ['variants', 'v'])
    expect(strangers).toEqual([
      { path: ['variants', 'v', 'wake', 'steps', 'sned'], names: ['sense', 'log', 'send'] },
    ])
  })

  test('leaves the base as it was', () => {
    const before = structuredClone(FILE)
    merged(FILE, { wake: { steps: { send: { every: 6 } } } })
    expect(FILE).toEqual(before)
  })
})
