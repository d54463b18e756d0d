/** Accuracies as data sheets print them; each by hand into the parts that they add up to. */
import { describe, expect, it } from 'vitest'
import { readInstrument } from './instrument-file.ts'

function read(accuracy: string) {
  const file = `instrument: x\nranges:\n  - { up to: 400 mA, digit: 0.1 mA, accuracy: "${accuracy}" }\n`
  return readInstrument(file)
}

describe('accuracy', () => {
  it.each<[string, ofReading: number, digits: number, offset_A: number]>([
    ['1.2 % + 3 digits', 0.012, 3, 0],
    ['± (1 % + 3 digits)', 0.01, 3, 0],
    ['±(1.0%+3dgt)', 0.01, 3, 0],
    ['+/- 1 % +/- 3 digits', 0.01, 3, 0],
    ['± 1 % ± 1 digit', 0.01, 1, 0],
    ['(1 % + 3)', 0.01, 3, 0],
    ['1 % + 3', 0.01, 3, 0],
    ['1 % rdg + 5 counts', 0.01, 5, 0],
    ['3 counts', 0, 3, 0],
    ['0.5 % of range', 0, 0, 2e-3],
    ['0.1 % of reading + 0.05 % of range', 1e-3, 0, 0.2e-3],
    ['0.1 % of rdg. + 0.05 % FS', 1e-3, 0, 0.2e-3],
    ['500 ppm + 25 ppm of full scale', 5e-4, 0, 1e-5],
    ['0.2 % + 60 µA', 0.002, 0, 60e-6],
    ['2 mA', 0, 0, 2e-3],
    ['0 %', 0, 0, 0],
  ])('%s', (text, ofReading, digits, offset_A) => {
    const found = read(text)
    const [range] = 'instrument' in found ? found.instrument.ranges : []
    expect(range.accuracyOfReading).toBeCloseTo(ofReading, 12)
    expect(range.accuracyDigits).toBe(digits)
    expect(range.accuracyOffset_A).toBeCloseTo(offset_A, 12)
  })

  it.each([
    ['-1 %', 'out-of-range', '-1 % is below zero'],
    ['−1 % + 3 digits', 'out-of-range', '−1 % is below zero'],
    ['1 % + -3 digits', 'out-of-range', '-3 digits is below zero'],
    ['-2 mA', 'out-of-range', '-2 mA is below zero'],
    ['1 % +', 'accuracy-unreadable', 'a part of the accuracy is missing'],
    ['', 'accuracy-unreadable', 'a part of the accuracy is missing'],
    ['good', 'accuracy-unreadable', '"good" is no part'],
    ['1', 'accuracy-unreadable', '"1" is no part'],
    ['3 + 1 %', 'accuracy-unreadable', '"3" is no part'],
    ['1 % of everything', 'accuracy-unreadable', '"1 % of everything" is no part'],
    ['(1 % + 3 digits', 'accuracy-unreadable', '"(1 %" is no part'],
    ['1,5 % + 3 digits', 'accuracy-unreadable', '"1,5 %" is no part'],
  ])('"%s" is refused with its place', (text, code, message) => {
    const found = read(text)
    const [problem] = 'problems' in found ? found.problems : []
    expect(problem.code).toBe(code)
    expect(problem.message).toContain(message)
    expect(problem.path).toEqual(['ranges', 0, 'accuracy'])
  })
})
