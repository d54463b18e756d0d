import fc from 'fast-check'
import { expect, test } from 'vitest'
import { DoubleDouble, productError } from './double-double.ts'

test('a sum keeps a small term between two large ones that cancel', () => {
  expect(new DoubleDouble().add(1e20).add(3.5).add(-1e20).value).toBe(3.5)
  expect(new DoubleDouble().add(1e16).add(1e-10).add(-1e16).value).toBe(1e-10)
})

test('a difference of long prefix sums keeps the digits of a short span', () => {
  const long = new DoubleDouble()
  for (let i = 0; i < 1000; i++) long.add(0.1)
  const before = new DoubleDouble().addPair(long)
  long.add(1e-13).addPair(new DoubleDouble(2e-13))
  expect(long.subtractPair(before).value / 3e-13).toBeCloseTo(1, 14)
})

test('the product error is exact: checked against whole-number arithmetic', () => {
  fc.assert(
    fc.property(fc.maxSafeInteger(), fc.maxSafeInteger(), (a, b) => {
      const product = a * b
      expect(BigInt(product) + BigInt(productError(a, b, product))).toBe(BigInt(a) * BigInt(b))
    }),
  )
})

test('scaling and products keep what a double would round away', () => {
  const a = 2 ** 53 - 1
  expect(new DoubleDouble().addProduct(a, a).add(-a * a).value).toBe(productError(a, a, a * a))
  expect(new DoubleDouble(1, 2 ** -60).scale(3).add(-3).value).toBe(3 * 2 ** -60)
})
