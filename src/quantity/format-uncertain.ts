/** An uncertain number in the grammar of `parse-uncertain.ts`, so that a file written by the program reads like one. */
import type { Dimension } from './dimension.ts'
import { formatQuantity, inUnit, unitFor } from './format.ts'
import type { Uncertain } from './uncertain.ts'

/** Text that parses back to `value`: to the last bit where the unit is a power of ten of the base unit. */
export function formatUncertain(value: Uncertain, dimension: Dimension): string {
  switch (value.kind) {
    case 'exact':
      return formatQuantity(value.value, dimension)
    case 'normal': {
      const expanded = 2 * value.u // JCGM 100, 6.2.1 with k = 2, as parsed
      const unit = unitFor(Math.max(Math.abs(value.value), expanded), dimension)
      return `${inUnit(value.value, unit)} ± ${inUnit(expanded, unit)}`
    }
    case 'uniform': {
      const unit = unitFor(Math.max(Math.abs(value.low), Math.abs(value.high)), dimension)
      return `${inUnit(value.low, unit)}..${inUnit(value.high, unit)}`
    }
    case 'below':
      return `< ${formatQuantity(value.limit, dimension)}`
    case 'skewed': {
      const unit = unitFor(value.typical === 0 ? value.p95 : value.typical, dimension)
      return `${inUnit(value.typical, unit)} [${inUnit(value.p5, unit)}, ${inUnit(value.p95, unit)}]`
    }
  }
}
