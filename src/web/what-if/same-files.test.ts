import { expect, it } from 'vitest'
import { sameFiles } from './same-files.ts'

it('gives equal files as the objects that came first, and others as they are', () => {
  const files = sameFiles()
  const first = files({ a: Uint8Array.of(1, 2), b: Uint8Array.of(3) })
  const changed = Uint8Array.of(4)
  const second = files({ a: Uint8Array.of(1, 2), b: changed })
  expect(second.a).toBe(first.a)
  expect(second.b).toBe(changed)
  expect(Object.keys(files({ a: Uint8Array.of(1) }))).toEqual(['a'])
  expect(files({ a: Uint8Array.of(1) }).a).toEqual(Uint8Array.of(1))
})
