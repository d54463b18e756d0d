/** A unit written once for several numbers: `0.7 ± 0.1 mA`, `20..35 mA`, `4 s [2, 9]`. */
import type { Dimension } from './dimension.ts'
import type { Part } from './part.ts'
import { failed, type Parsed, parsed } from './problem.ts'
import { takesBareNumber, withUnit } from './unit.ts'

/**
 * The parts, each without a unit given that of the next part that has one, or else of the last before it. A share of at
 * most one could be meant as it stands (`0.9 ± 5 %`), so there the unit has to be written.
 */
export function shareUnits(parts: readonly Part[], dimension: Dimension): Parsed<readonly Part[]> {
  const filled: Part[] = []
  for (const [i, part] of parts.entries()) {
    const has = (other: Part) => other.unit !== ''
    const donor = has(part) ? part : (parts.slice(i + 1).find(has) ?? parts.slice(0, i).findLast(has) ?? part)
    const size = Math.abs(Number(part.decimal))
    if (donor !== part && takesBareNumber(dimension) && size > 0 && size <= 1)
      return failed({
        code: 'unit-ambiguous',
        message: `${part.decimal} could be a plain number or ${withUnit(part.decimal, donor.unit)}`,
        expected: 'every number with its own unit, as in "90 % ± 5 %"',
        cure: `write "${withUnit(part.decimal, donor.unit)}" if that is meant`,
        start: part.start,
        end: part.end,
      })
    filled.push({ ...part, unit: donor.unit })
  }
  return parsed(filled)
}
