/** A field of several numbers: month by month. */
import { z } from 'zod'
import type { Dimension } from '../../quantity/dimension.ts'
import { best } from '../../quantity/spread.ts'
import { type Bounds, readUncertain } from './quantity-field.ts'
import { type About, refuse } from './sourced-field.ts'

/** Several numbers with one unit at the end (`0.8 1.9 3.9 h`), or a list of texts with a unit each. */
export function quantities(dimension: Dimension, count: number, about: About, bounds: Bounds = {}) {
  const shape = { anyOf: [{ type: 'string' }, { type: 'array', items: { type: ['string', 'number'] } }] }
  return z
    .unknown()
    .meta({ ...about, examples: [...about.examples], ...shape })
    .transform((input, context): readonly number[] => {
      const items = Array.isArray(input) ? input.map(String) : typeof input === 'string' ? itemsOf(input) : []
      if (items.length !== count)
        return refuse(context, input, {
          code: input === undefined ? 'missing-key' : 'wrong-count',
          message: input === undefined ? 'missing' : `${items.length} numbers, where ${count} belong`,
          expected: `${count} numbers from January on, as in "${about.examples[0]}"`,
          cure: 'give a number for each month',
        })
      const read = items.map((item) => readUncertain(item, dimension, bounds))
      const wrong = read.findIndex((each) => !each.ok)
      const problem = read[wrong]
      if (problem !== undefined && !problem.ok) {
        const { start: _, end: __, ...rest } = problem.problem
        return refuse(context, input, { ...rest, message: `number ${wrong + 1}: ${rest.message}` })
      }
      return read.map((each) => (each.ok ? best(each.value) : 0))
    })
}

/** `0.8 1.9 3.9 h` as `0.8 h`, `1.9 h`, `3.9 h`. */
function itemsOf(text: string): string[] {
  const [, numbers, unit] = /^((?:[-−+]?[\d.]+[\s,]*)+)(.*)$/.exec(text.trim()) ?? ['', '', '']
  return numbers
    .split(/[\s,]+/)
    .filter((number) => number !== '')
    .map((number) => `${number} ${unit}`.trim())
}
