/** The built-in cells: where each chemistry is chosen, by name or by chemistry and size. */
import { editDistance, nearestWord } from '../numeric/edit-distance.ts'
import { alkalineFamily } from './catalogue/alkaline.ts'
import type { Family } from './catalogue/family.ts'
import { idealFamily } from './catalogue/ideal.ts'
import { leadAcidFamily } from './catalogue/lead-acid.ts'
import { lithiumIonFamily } from './catalogue/lithium-ion.ts'
import { lithiumIronDisulfideFamily } from './catalogue/lithium-iron-disulfide.ts'
import { lithiumIronPhosphateFamily } from './catalogue/lithium-iron-phosphate.ts'
import { lithiumManganeseFamily } from './catalogue/lithium-manganese.ts'
import { lithiumThionylFamily } from './catalogue/lithium-thionyl-chloride.ts'
import { nickelMetalHydrideFamily } from './catalogue/nickel-metal-hydride.ts'
import { supercapacitorFamily } from './catalogue/supercapacitor.ts'
import { plainName } from './cell-catalogue-names.ts'
import type { Cell, Chemistry } from './supply.ts'

const families: readonly Family[] = [
  lithiumIonFamily,
  lithiumIronPhosphateFamily,
  alkalineFamily,
  lithiumIronDisulfideFamily,
  nickelMetalHydrideFamily,
  lithiumManganeseFamily,
  lithiumThionylFamily,
  leadAcidFamily,
  supercapacitorFamily,
  idealFamily,
]

const cells = families.flatMap((family) => family.cells)

/** Every name `findCell` knows, chemistries sized by capacity and IEC designations alike. */
export const cellNames: readonly string[] = cells.map((cell) => cell.name)

/** The chemistries sold in any size, for which a capacity must be given. */
export const chemistriesByCapacity: readonly Chemistry[] = families
  .filter((family) => family.sizedByCapacity)
  .map((family) => family.chemistry)

/** The built-in cell of this name, whatever its case, at its catalogue capacity; null where there is none. */
export function findCell(name: string): Cell | null {
  const wanted = name.trim().toLowerCase()
  return cells.find((cell) => cell.name.toLowerCase() === wanted) ?? null
}

/** A shorter word is too near to others to be taken for a slip. */
const LONG_WORD = 4

/** A longer designation (CR2032) may have one slip in it; in a shorter one a digit makes another size. */
const LONG_DESIGNATION = 6

/**
 * The known name that `name` is most likely a slip of: the same but for blanks, hyphens and case, or one letter or
 * digit off. Null where it would be another cell: letters of a designation say the chemistry.
 */
export function nearestCellName(name: string): string | null {
  const written = plainName(name)
  const near = nearestWord(written, cellNames.map(plainName))
  const known = cellNames[cellNames.map(plainName).indexOf(near)]
  if (near === written) return known
  const letters = (text: string) => /^[a-z]*/.exec(text)?.[0]
  const isDesignation = /^[a-z]+\d+$/.test(near)
  if (isDesignation && (letters(near) !== letters(written) || near.length < LONG_DESIGNATION)) return null
  return near.length >= LONG_WORD && editDistance(written, near) <= 1 ? known : null
}

/**
 * A cell of a chemistry sold in any size. Resistance goes inversely with capacity (electrode area), all else stays.
 * Throws RangeError for a chemistry of fixed sizes, or a capacity in coulombs that is not above 0.
 */
export function cellOf(chemistry: Chemistry, capacity_C: number): Cell {
  const family = familyOf(chemistry)
  if (!family.sizedByCapacity)
    throw new RangeError(
      `${chemistry} comes in fixed sizes (${family.cells.map((cell) => cell.name).join(', ')}): name one instead of a capacity`,
    )
  if (!(capacity_C > 0 && capacity_C < Infinity))
    throw new RangeError(`a cell's capacity must be above 0 C: got ${capacity_C}`)
  const [cell] = family.cells
  const { x, y } = cell.resistance_Ohm
  const factor = cell.capacity_C / capacity_C
  return { ...cell, capacity_C, resistance_Ohm: { x, y: y.map((ohm) => ohm * factor) } }
}

/** Where the constants of a chemistry come from, for a list of assumptions. */
export function sourceOf(chemistry: Chemistry): string {
  return familyOf(chemistry).source
}

function familyOf(chemistry: Chemistry): Family {
  const family = families.find((each) => each.chemistry === chemistry)
  if (family === undefined) throw new RangeError(`no cells of chemistry ${chemistry}`)
  return family
}
