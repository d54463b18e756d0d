import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Estimate } from './estimate.ts'
import { propagate } from './propagate.ts'

const known = (value: number, u: number): Estimate => ({ value, u, dof: Infinity })

describe('propagate', () => {
  it('adds relative uncertainties of a product in squares (JCGM 100, 5.1.6)', () => {
    const { outputs } = propagate(
      ([a, b, c]) => [(a * b) / c ** 2],
      [known(3, 0.03), known(7, 0.14), known(2, 0.06)],
    )
    expect(outputs[0].u / outputs[0].value).toBeCloseTo(Math.hypot(0.01, 0.02, 2 * 0.03), 6)
  })

  it('adds fully correlated uncertainties without squares, and cancels them in a difference (5.2.2 note 1)', () => {
    const correlation = [
      [1, 1],
      [1, 1],
    ]
    const { outputs } = propagate(([a, b]) => [a + b, a - b], [known(1000, 0.1), known(1000, 0.1)], {
      correlation,
    })
    expect(outputs.map(({ u }) => u)).toEqual([expect.closeTo(0.2, 9), 0])
  })

  it('takes given sensitivities as they are', () => {
    const { outputs, sensitivities } = propagate(([a]) => [a ** 2], [known(3, 1)], { sensitivities: [[5]] })
    expect(outputs[0]).toEqual({ value: 9, u: 5, dof: Infinity })
    expect(sensitivities).toEqual([[5]])
  })

  it('gives the same by numerical derivatives as by exact ones, for any size of value and u', () => {
    const size = fc.double({ min: -9, max: 6, noNaN: true })
    const share = fc.double({ min: -9, max: -1.3, noNaN: true })
    fc.assert(
      fc.property(size, share, (decade, shareDecade) => {
        const x = 10 ** decade
        const input = known(x, x * 10 ** shareDecade)
        const { sensitivities } = propagate(([y]) => [1 / y, y ** 3, Math.log(y)], [input])
        const exact = [-1 / x ** 2, 3 * x ** 2, 1 / x]
        for (let k = 0; k < 3; k++) expect(Math.abs(sensitivities[k][0] / exact[k] - 1)).toBeLessThan(2e-6)
      }),
    )
  })

  it('gives the same in two stages, correlations handed on, as in one', () => {
    const inputs = [known(2, 0.01), known(5, 0.02), known(1, 0.01)]
    const stage = propagate(([a, b, c]) => [a * b, b / c], inputs)
    const { outputs } = propagate(([p, q]) => [p / q], stage.outputs, { correlation: stage.correlation })
    const [direct] = propagate(([a, , c]) => [a * c], inputs).outputs
    expect(outputs[0].value).toBeCloseTo(direct.value, 12)
    expect(outputs[0].u).toBeCloseTo(direct.u, 8)
  })

  it('finds the degrees of freedom of a difference read against three effects (JCGM 100, H.1.3.2: 9.7 nm, 25.6)', () => {
    const effects = [
      { value: 215, u: 5.8, dof: 24 },
      { value: 0, u: 3.9, dof: 5 },
      { value: 0, u: 6.7, dof: 8 },
    ]
    const [{ u, dof }] = propagate(([a, b, c]) => [a + b + c], effects).outputs
    expect(u).toBeCloseTo(9.7, 1)
    // The printed number comes from u rounded to 9.7.
    expect((dof ?? 0) * (9.7 / u) ** 4).toBeCloseTo(25.6, 1)
  })

  it('knows no degrees of freedom where a correlated or unknown one counts', () => {
    const read = { value: 1, u: 0.1, dof: 4 }
    const correlation = [
      [1, 0.5],
      [0.5, 1],
    ]
    const dof = (inputs: Estimate[]) =>
      propagate(([a, b]) => [a + b, a], inputs, { correlation }).outputs.map((o) => o.dof)
    expect(dof([read, read])).toEqual([null, 4])
    expect(dof([known(1, 0.1), known(1, 0.1)])).toEqual([Infinity, Infinity])
    expect(propagate(([a]) => [a], [{ ...read, dof: null }]).outputs[0].dof).toBeNull()
  })

  it.each<[string, Estimate[], number[][] | undefined, RegExp]>([
    ['a negative u', [known(1, -1)], undefined, /input 0.*-1/],
    ['half a degree of freedom', [{ value: 1, u: 1, dof: 0.5 }], undefined, /0\.5 degrees/],
    [
      'a correlation beyond 1',
      [known(1, 1), known(1, 1)],
      [
        [1, 2],
        [2, 1],
      ],
      /correlation 2/,
    ],
    [
      'a lopsided correlation',
      [known(1, 1), known(1, 1)],
      [
        [1, 0.1],
        [0.2, 1],
      ],
      /symmetric/,
    ],
    [
      'a matrix of another size',
      [known(1, 1)],
      [
        [1, 0],
        [0, 1],
      ],
      /1 by 1/,
    ],
    [
      'correlations that contradict each other',
      [known(1, 1), known(1, 1), known(1, 1)],
      [
        [1, -0.9, -0.9],
        [-0.9, 1, -0.9],
        [-0.9, -0.9, 1],
      ],
      /contradict/,
    ],
  ])('refuses %s', (_, inputs, correlation, message) => {
    const sum = (x: readonly number[]) => [x.reduce((a, b) => a + b)]
    expect(() => propagate(sum, inputs, correlation ? { correlation } : {})).toThrow(message)
  })

  it('refuses a model that has no value or no derivative there', () => {
    expect(() => propagate(([a]) => [Math.log(a)], [known(-1, 0.1)])).toThrow(/output 0 is NaN/)
    expect(() => propagate(([a]) => [Math.sqrt(a)], [known(0, 0.1)])).toThrow(/sensitivities NaN/)
  })
})
