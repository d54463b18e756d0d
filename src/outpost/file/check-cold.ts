/** Where it gets colder than the cell's model knows, or than a discharged one bears. */
import { coldestAir_C } from '../../sky/coldest-air.ts'
import type { Place } from '../../sky/place.ts'
import type { Supply } from '../../supply/supply.ts'
import type { Findings } from './findings.ts'

const AT = ['supply', 'cell', 'type'] as const

/** Acid of a lead-acid cell freezes: discharged, half charged, full at about −70 °C; common practice, from memory. */
const FREEZES_EMPTY_C = -10
const FREEZES_HALF_C = -25

export function checkColdCell({ pack }: Supply, place: Place, findings: Findings): void {
  const { cell } = pack
  const cold_C = Math.round(coldestAir_C(place.climate))
  const lowest_C = Math.max(cell.capacityFactor.x[0], cell.resistanceFactor.x[0])
  if (cell.chemistry !== 'ideal' && cold_C < lowest_C)
    findings.warn([...AT], {
      code: 'colder-than-model',
      message: `it gets as cold as ${cold_C} °C there, and what ${cell.name} cells give is known down to ${lowest_C} °C; below, the forecast takes them as at ${lowest_C} °C, which is too good`,
      expected: `air of ${lowest_C} °C and more`,
      cure: 'choose a cell whose data sheet goes so low, or keep it warmer, buried or in a box with insulation; trust no forecast of those weeks',
    })
  if (cell.chemistry === 'VRLA' && cold_C < FREEZES_EMPTY_C)
    findings.warn([...AT], {
      code: 'lead-acid-freezes',
      message: `it gets as cold as ${cold_C} °C there, and the acid of a discharged lead-acid battery freezes at about ${FREEZES_EMPTY_C} °C, of a half-charged one at about ${FREEZES_HALF_C} °C: it bursts and is lost, which the forecast does not count`,
      expected: 'a battery that stays well charged through the frost',
      cure: 'size it so that it never falls low in the cold months, and see its data sheet; or take a cell that does not freeze',
    })
}
