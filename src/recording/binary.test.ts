import { describe, expect, test } from 'vitest'
import { type BinaryOptions, BinaryStream, npyHeader, planNpy, planRaw } from './binary.ts'

function npy(
  descr: string,
  shape: string,
  data: ArrayBufferView,
  fortran = 'False',
  version = 1,
): Uint8Array {
  const text = `{'descr': '${descr}', 'fortran_order': ${fortran}, 'shape': ${shape}, }`
  const start = version === 1 ? 10 : 12
  const padded = text.padEnd(128 - start - 1).concat('\n')
  const head = new Uint8Array(start)
  head.set([0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59, version, 0, padded.length, 0])
  return Buffer.concat([head, Buffer.from(padded), new Uint8Array(data.buffer as ArrayBuffer)])
}

function read(bytes: Uint8Array, options: BinaryOptions = {}, raw = false, piece = 13) {
  const plan = raw ? planRaw(options) : planNpy(bytes, options)
  const out = { time: [] as number[], current: [] as number[], voltage: [] as number[] }
  const stream = new BinaryStream(plan, {
    columns: ({ time_s, current_A, voltage_V }) => {
      out.time.push(...(time_s ?? []))
      out.current.push(...current_A)
      out.voltage.push(...(voltage_V ?? []))
    },
    damaged: () => {},
  })
  for (let at = plan.firstByte; at < bytes.length; at += piece) stream.push(bytes.subarray(at, at + piece))
  stream.end()
  return out
}

describe('.npy', () => {
  test.each([1, 2, 3])('one dimension of float32, version %i', (version) => {
    const bytes = npy('<f4', '(3,)', Float32Array.of(0.1, 0.2, 0.3), 'False', version)
    expect(read(bytes, { rate_Hz: 10 }).current).toEqual([...Float32Array.of(0.1, 0.2, 0.3)])
  })

  test('two dimensions of float64 are time, current and voltage', () => {
    const bytes = npy('<f8', '(2, 3)', Float64Array.of(5, 0.1, 3, 6, 0.2, 2.5))
    expect(read(bytes)).toEqual({ time: [0, 1], current: [...Float32Array.of(0.1, 0.2)], voltage: [3, 2.5] })
  })

  test('with a rate, a first column that rises evenly is the time and no current', () => {
    const bytes = npy('<f8', '(3, 2)', Float64Array.of(0, 0.1, 0.5, 0.2, 1, 0.05))
    expect(read(bytes, { rate_Hz: 2 }).current).toEqual([0.1, 0.2, 0.05].map(Math.fround))
    const volts = npy('<f8', '(3, 2)', Float64Array.of(0.1, 3, 0.2, 3.1, 0.05, 3))
    expect(read(volts, { rate_Hz: 2 }).voltage).toEqual([3, 3.1, 3].map(Math.fround))
  })

  test('columns by place', () => {
    const bytes = npy('<f8', '(2, 3)', Float64Array.of(7, 0.1, 5, 8, 0.2, 6))
    expect(read(bytes, { time: 3, current: 2 })).toEqual({
      time: [0, 1],
      current: [0.1, 0.2].map(Math.fround),
      voltage: [],
    })
    expect(() => read(bytes, { current: 4 })).toThrow(/no column 4 .* 1 to 3/)
    expect(() => read(bytes, { current: 'current' })).toThrow(/without names/)
  })

  test('a code for overload is no number', () => {
    const bytes = npy('<f8', '(4,)', Float64Array.of(0.1, 9.9e37, 1e39, -9.9e37))
    expect(read(bytes, { rate_Hz: 10 }).current).toEqual([
      Math.fround(0.1),
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ])
  })

  test('int16 counts need their scale', () => {
    const bytes = npy('<i2', '(3,)', Int16Array.of(-1, 0, 1000))
    expect(read(bytes, { rate_Hz: 1, scale_A: 0.5 }).current).toEqual([-0.5, 0, 500])
    expect(() => read(bytes, { rate_Hz: 1 })).toThrow(/amperes per count/)
  })

  test('our own header is read back, its data on a multiple of 64 bytes', () => {
    const bytes = Buffer.concat([npyHeader(2, 2), new Uint8Array(Float64Array.of(0, 1, 1, 2).buffer)])
    expect(read(bytes).current).toEqual([1, 2])
    expect(npyHeader(123_456_789, 3).length % 64).toBe(0)
  })

  test.each<[string, Uint8Array, BinaryOptions, RegExp]>([
    ['no rate', npy('<f4', '(3,)', new Float32Array(3)), {}, /sampling rate/],
    ['columns first', npy('<f8', '(4, 2)', new Float64Array(8), 'True'), {}, /transposed/],
    ['big-endian', npy('>f8', '(4,)', new Float64Array(4)), { rate_Hz: 1 }, /little-endian/],
    [
      'three dimensions',
      npy('<f8', '(1, 2, 2)', new Float64Array(4)),
      { rate_Hz: 1 },
      /one or two dimensions/,
    ],
    ['cut off', npy('<f8', '(9,)', new Float64Array(4)), { rate_Hz: 1 }, /ends after 4 of 9 rows/],
    ['another magic', new Uint8Array(64), {}, /no \.npy file/],
  ])('%s is refused with a cure', (_name, bytes, options, message) => {
    expect(() => read(bytes, options)).toThrow(message)
  })
})

test('raw float32 needs a rate, and whole numbers', () => {
  const bytes = new Uint8Array(Float32Array.of(1, 2, 3).buffer)
  expect(read(bytes, { rate_Hz: 100 }, true).current).toEqual([1, 2, 3])
  expect(() => read(bytes, {}, true)).toThrow(/sampling rate/)
  expect(() => read(bytes.subarray(0, 10), { rate_Hz: 100 }, true)).toThrow(/middle of a number/)
})
