/**
 * PELT against exact optima from an independent program in rational arithmetic; provenance in
 * truth/change-points/README.md.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { changePoints } from '../../src/recording/change-points.ts'

/** Largest relative deviation allowed, with the cause of the residual. */
const TOLERANCE = {
  cost: 1e-9, // rounding of prefix sums; the optimum is exact and printed to 16 digits
}

interface Row {
  readonly id: string
  readonly changes: readonly number[]
  readonly cost: number
  readonly unique: boolean
}

interface Truth {
  readonly signal: readonly number[]
  readonly sse0: number
  readonly penalised: readonly (Row & { readonly penalty: number; readonly shortest: number })[]
  readonly exactly: readonly (Row & { readonly segments: number })[]
}

const truth: Truth = JSON.parse(
  readFileSync(new URL('../../truth/change-points/change-points.json', import.meta.url), 'utf8'),
)
const { signal } = truth

function squaresAbout(from: number, to: number): number {
  const part = signal.slice(from, to)
  const mean = part.reduce((sum, x) => sum + x, 0) / part.length
  return part.reduce((sum, x) => sum + (x - mean) ** 2, 0)
}

function costOf(changes: readonly number[]): number {
  const edges = [0, ...changes, signal.length]
  return edges.slice(1).reduce((sum, to, k) => sum + squaresAbout(edges[k], to), 0)
}

describe('change points', () => {
  it.each(truth.penalised)('$id has the least cost', ({ changes, cost, unique, penalty, shortest }) => {
    const found = changePoints(signal, { penalty, shortest })
    expect(Math.abs(found.cost - cost)).toBeLessThanOrEqual(TOLERANCE.cost * Math.max(cost, 1))
    // The changes that were found do cost what is said, whether or not another choice costs the same.
    const recomputed = costOf([...found.changes]) + penalty * found.changes.length
    expect(Math.abs(recomputed - cost)).toBeLessThanOrEqual(TOLERANCE.cost * Math.max(cost, 1))
    if (unique) expect([...found.changes]).toEqual(changes)
  })

  it('without changes costs the sum of squares about the mean', () => {
    const { cost, changes } = changePoints(signal, { penalty: 1e9 })
    expect(changes).toHaveLength(0)
    expect(Math.abs(cost / truth.sse0 - 1)).toBeLessThanOrEqual(TOLERANCE.cost)
  })

  // A segmentation that is cheapest for a penalty is cheapest among all with its number of segments.
  it.each(truth.exactly)(
    '$id is found by some penalty, or lies above the line between its neighbours',
    (row) => {
      const penalties = Array.from({ length: 400 }, (_, k) => 200 * 1.02 ** k)
      const found = penalties.map((penalty) => ({ penalty, ...changePoints(signal, { penalty }) }))
      const same = found.find(({ changes }) => changes.length === row.segments - 1)
      if (same) {
        expect([...same.changes]).toEqual(row.changes)
        expect(Math.abs(costOf(row.changes) / row.cost - 1)).toBeLessThanOrEqual(TOLERANCE.cost)
      } else {
        for (const { penalty, cost } of found)
          expect(row.cost + penalty * (row.segments - 1)).toBeGreaterThanOrEqual(cost * (1 - TOLERANCE.cost))
      }
    },
  )
})
