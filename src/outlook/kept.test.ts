import { describe, expect, it } from 'vitest'
import { Kept } from './kept.ts'

describe('what is kept', () => {
  it('is made once, until more was asked for than there is room', () => {
    const made: string[] = []
    const kept = new Kept<{ bytes: number }>(100, ({ bytes }) => bytes)
    const ask = (key: string, bytes: number) =>
      kept.get(key, () => {
        made.push(key)
        return { bytes }
      })
    ask('a', 40)
    ask('b', 40)
    ask('a', 40)
    expect(made).toEqual(['a', 'b'])
    ask('c', 40) // b goes, which was asked for before a
    ask('a', 40)
    expect(made).toEqual(['a', 'b', 'c'])
    ask('b', 40) // and now c
    ask('c', 40)
    expect(made).toEqual(['a', 'b', 'c', 'b', 'c'])
  })

  it('may be larger than there is room, alone', () => {
    const kept = new Kept<{ bytes: number }>(100, ({ bytes }) => bytes)
    const large = kept.get('large', () => ({ bytes: 1000 }))
    expect(kept.get('large', () => ({ bytes: 1 }))).toBe(large)
    kept.get('small', () => ({ bytes: 1 }))
    expect(kept.get('large', () => ({ bytes: 2 }))).not.toBe(large)
  })

  it('makes room as its values grow', () => {
    const kept = new Kept<{ bytes: number }>(100, ({ bytes }) => bytes)
    kept.get('old', () => ({ bytes: 50 }))
    const grown = kept.get('grown', () => ({ bytes: 10 }))
    grown.bytes = 90
    expect(kept.get('grown', () => ({ bytes: 0 }))).toBe(grown)
    expect(kept.get('old', () => ({ bytes: 1 })).bytes).toBe(1)
  })
})
