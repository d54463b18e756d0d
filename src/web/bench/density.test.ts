import { expect, it } from 'vitest'
import { densityColumns } from './density.ts'

it('columns say where a tenth, half and nine tenths of their samples lie', () => {
  // Four rows of a decade each, from 1 µA; the middles lie at half a decade.
  const density = {
    duration_s: 3,
    columns: 3,
    rows: 4,
    lowest_A: 1e-6,
    highest_A: 1e-2,
    // By rows from the lowest: all samples of the first column in row 0; of the second one in ten in row 3; none in the third.
    counts: [10, 9, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0],
    wakes: 10,
  }
  const [first, second, ...others] = densityColumns(density)
  expect(others).toEqual([])
  expect(first.median_A).toBeCloseTo(10 ** -5.5, 12)
  expect(second).toMatchObject({ from_s: 1 })
  expect(second.p10_A).toBeCloseTo(10 ** -5.5, 12)
  expect(second.p90_A).toBeCloseTo(10 ** -5.5, 12)
  expect(
    densityColumns({ ...density, counts: density.counts.map((x, k) => (k === 10 ? 2 : x)) })[1].p90_A,
  ).toBeCloseTo(10 ** -2.5, 12)
})
