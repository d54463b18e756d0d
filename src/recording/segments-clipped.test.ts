import { expect, test } from 'vitest'
import { clippedSegments } from './segments-clipped.ts'

const starts = Int32Array.from([0, 100, 160, 2000])
const clippedAt = (...places: (readonly [sample: number, count: number])[]) =>
  places.map(([sample, count]) => ({
    kind: 'saturated' as const,
    sample,
    count,
    line: null,
    duration_s: 0,
    text: null,
  }))

test('marks each segment that a clipped stretch reaches into', () => {
  expect([...clippedSegments({ starts }, clippedAt([110, 20]))]).toEqual([0, 1, 0, 0])
  expect([...clippedSegments({ starts }, clippedAt([99, 1], [159, 2]))]).toEqual([1, 1, 1, 0])
  expect([...clippedSegments({ starts }, clippedAt([5000, 9]))]).toEqual([0, 0, 0, 1])
  expect([...clippedSegments({ starts }, clippedAt([160, 10]), 60)]).toEqual([0, 1, 0, 0])
  expect([...clippedSegments({ starts }, clippedAt([10, 20]), 60)]).toEqual([0, 0, 0, 0])
})

test('takes nothing else for clipping', () => {
  const [flaw] = clippedAt([110, 20])
  expect([
    ...clippedSegments({ starts }, [
      { ...flaw, kind: 'gap' },
      { ...flaw, sample: null },
    ]),
  ]).toEqual([0, 0, 0, 0])
})
