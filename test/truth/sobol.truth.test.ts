/** Sobol' points and indices against a general-purpose library and functions whose indices are known exactly. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { normalQuantile } from '../../src/numeric/normal.ts'
import { stream } from '../../src/numeric/random.ts'
import { sobolIndices } from '../../src/numeric/sobol-indices.ts'
import { sobolPoints } from '../../src/numeric/sobol-sequence.ts'

const read = (name: string) => JSON.parse(readFileSync(`truth/sobol/${name}.json`, 'utf8'))

/** Error of an estimate from 2^14 rows; what is left is that of the sample. Its own 95 % interval must hold it too. */
const TOLERANCE = { first: 0.005, total: 0.005 }
const ROWS = 2 ** 14

type Case = {
  id: string
  inputs: Record<string, number | number[]>
  expected: Record<string, number | number[]>
}
const cases: Case[] = read('indices').items

describe("a Sobol' sequence", () => {
  it('has the points of the library', () => {
    const points = sobolPoints(1024, 128, null)
    for (const { index, values } of read('sequence').points)
      for (const [dimension, value] of Object.entries(values))
        expect(Math.abs(points[index * 128 + Number(dimension)] - Number(value))).toBeLessThan(2 ** -32)
  })
})

describe("Sobol' indices", () => {
  it.each(cases.map((c) => [c.id, c] as const))('%s', (_, known) => {
    const { f, first, total } = functionOf(known)
    const inputs = first.length
    const indices = indicesOf(f, inputs)
    for (let i = 0; i < inputs; i++) {
      const { first: s, total: t } = indices[i]
      expect(Math.abs(s.value - first[i])).toBeLessThan(TOLERANCE.first)
      expect(Math.abs(t.value - total[i])).toBeLessThan(TOLERANCE.total)
      expect(s.low <= first[i] && first[i] <= s.high, `first order of input ${i}`).toBe(true)
      expect(t.low <= total[i] && total[i] <= t.high, `total of input ${i}`).toBe(true)
    }
  })

  it('says nothing where nothing varies', () => {
    const flat = new Float64Array(8).fill(3)
    expect(sobolIndices({ a: flat, b: flat, ab: [flat] }, stream(1, 0, 0))).toBeNull()
  })
})

function indicesOf(f: (u: Float64Array) => number, inputs: number) {
  const points = sobolPoints(ROWS, 2 * inputs, stream(7, 0, 0))
  const row = (j: number, from: number) => points.slice(2 * inputs * j + from, 2 * inputs * j + from + inputs)
  const over = (of: (j: number) => Float64Array) => Float64Array.from({ length: ROWS }, (_, j) => f(of(j)))
  const mixed = (i: number) => (j: number) => {
    const u = row(j, 0)
    u[i] = row(j, inputs)[i]
    return u
  }
  const samples = {
    a: over((j) => row(j, 0)),
    b: over((j) => row(j, inputs)),
    ab: Array.from({ length: inputs }, (_, i) => over(mixed(i))),
  }
  const indices = sobolIndices(samples, stream(7, 1, 0), 100)
  if (indices === null) throw new Error('the function does not vary')
  return indices
}

function functionOf({ id, inputs, expected }: Case) {
  const list = (value: number | number[]) => value as number[]
  const number = (value: number | number[]) => value as number
  const kind = id.split('-')[0]
  if (kind === 'ishigami') {
    const at = (u: number) => Math.PI * (2 * u - 1)
    const [a, b] = [number(inputs.a), number(inputs.b)]
    const f = ([x, y, z]: Float64Array) =>
      Math.sin(at(x)) + a * Math.sin(at(y)) ** 2 + b * at(z) ** 4 * Math.sin(at(x))
    return { f, first: list(expected.S), total: list(expected.ST) }
  }
  if (kind === 'gfunction') {
    const f = (u: Float64Array) =>
      list(inputs.a).reduce((product, a, i) => (product * (Math.abs(4 * u[i] - 2) + a)) / (1 + a), 1)
    return { f, first: list(expected.S), total: list(expected.ST) }
  }
  if (kind === 'linear') {
    const f = (u: Float64Array) =>
      list(inputs.c).reduce((sum, c, i) => sum + c * list(inputs.sd)[i] * normalQuantile(u[i]), 0)
    return { f, first: list(expected.S), total: list(expected.S) }
  }
  if (kind === 'product') {
    const x = (u: number, i: number) => list(inputs.m)[i] + list(inputs.sd)[i] * normalQuantile(u)
    const f = ([u, v]: Float64Array) => x(u, 0) * x(v, 1)
    const { S1, S2, ST1, ST2 } = expected
    return { f, first: [number(S1), number(S2)], total: [number(ST1), number(ST2)] }
  }
  throw new Error(`no function is known for ${id}`)
}
