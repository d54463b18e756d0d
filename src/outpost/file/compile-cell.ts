/** From what the file says of its cell to the engine's pack. */
import { times } from '../../quantity/scaled.ts'
import { best } from '../../quantity/spread.ts'
import { exactly, type Uncertain } from '../../quantity/uncertain.ts'
import {
  cellNames,
  cellOf,
  chemistriesByCapacity,
  findCell,
  nearestCellName,
  sourceOf,
} from '../../supply/cell-catalogue.ts'
import { meaningOf } from '../../supply/cell-catalogue-names.ts'
import { chargeAtAge, SHELF_C } from '../../supply/shelf.ts'
import type { Cell, Pack } from '../../supply/supply.ts'
import type { Path } from './diagnostic.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

type CellEntry = OutpostFile['supply']['cell']

const AT = ['supply', 'cell'] as const

/** A catalogue size and the file's capacity further apart than this are hardly the same cell. */
const UNUSUAL_RATIO = 1.6

/** Null where no cell could be made out; the findings say why. */
export function compilePack(entry: CellEntry, findings: Findings): Pack | null {
  const found = findCell(entry.type)
  if (found === null) return unknownCell(entry.type, findings)
  const capacity_C = compileCapacity(entry, found, findings)
  if (capacity_C === null) return null
  const sized = chemistriesByCapacity.includes(found.chemistry)
  findings.assume([...AT, 'type'], `a typical ${found.name} cell`, sourceOf(found.chemistry))
  if (entry.age === undefined) findings.assume([...AT, 'age'], 'put out new', 'default')
  return {
    cell: sized ? cellOf(found.chemistry, best(capacity_C)) : found,
    series: entry.series ?? 1,
    parallel: entry.parallel ?? 1,
    capacity_C,
    initial: entry.charged?.value ?? usualCharge(entry.age?.value, found, findings),
    age_s: entry.age?.value ?? exactly(0),
  }
}

/** A rechargeable cell is charged before it is put out; of a primary one the shelf has taken its share. */
function usualCharge(age_s: Uncertain | undefined, cell: Cell, findings: Findings): Uncertain {
  const path = [...AT, 'charged']
  if (age_s === undefined || cell.charging !== null) {
    const old = age_s === undefined ? '' : ', charged once more before'
    findings.assume(path, `put out full${old}`, 'default')
    return exactly(1)
  }
  const charged = chargeAtAge(cell, age_s)
  findings.assume(
    path,
    `${(100 * best(charged)).toPrecision(3)} %: full when made, less its self-discharge over its age at ${SHELF_C} °C`,
    sourceOf(cell.chemistry),
  )
  return charged
}

function unknownCell(type: string, findings: Findings): null {
  const meaning = meaningOf(type)
  const near = nearestCellName(type)
  const another = 'for a cell that is not built in, take the nearest of its chemistry and state its capacity'
  findings.error([...AT, 'type'], {
    code: 'unknown-cell',
    message: `no cell is known as "${type}"`,
    expected: `one of ${cellNames.join(', ')}`,
    cure: meaning ? `write ${meaning}` : near ? `did you mean "${near}"? Otherwise, ${another}` : another,
  })
  return null
}

function compileCapacity(entry: CellEntry, cell: Cell, findings: Findings): Uncertain | null {
  const path: Path = [...AT, entry.capacitance ? 'capacitance' : 'capacity']
  if (entry.capacitance !== undefined) {
    if (cell.chemistry === 'supercapacitor' && entry.capacity === undefined && cell.charging !== null)
      return times(entry.capacitance.value, cell.charging.full_V)
    findings.error(path, {
      code: 'capacitance-not-capacity',
      message:
        entry.capacity === undefined
          ? `${cell.name} cells have a capacity, not a capacitance`
          : 'capacity and capacitance both say how much it holds',
      expected: 'capacitance for a supercapacitor, capacity for any other cell',
      cure: entry.capacity === undefined ? 'write "capacity: 2000 mAh", for example' : 'keep one of them',
    })
    return null
  }
  if (entry.capacity !== undefined) {
    checkUsual(entry.capacity.value, cell, findings)
    return entry.capacity.value
  }
  if (!chemistriesByCapacity.includes(cell.chemistry)) {
    findings.assume([...AT, 'capacity'], `${Math.round(cell.capacity_C / 3.6)} mAh`, sourceOf(cell.chemistry))
    return exactly(cell.capacity_C)
  }
  const supercapacitor = cell.chemistry === 'supercapacitor'
  findings.error(
    AT,
    {
      code: 'cell-needs-capacity',
      message: `${cell.name} cells come in any size`,
      expected: supercapacitor ? 'its capacitance, as in "25 F"' : 'its capacity, as in "2000 mAh"',
      cure: supercapacitor
        ? 'add "capacitance: 25 F"'
        : `write "cell: { type: ${cell.name}, capacity: 2000 mAh }"`,
    },
    'key',
  )
  return null
}

function checkUsual(capacity: Uncertain, cell: Cell, findings: Findings): void {
  if (chemistriesByCapacity.includes(cell.chemistry)) return
  const ratio = best(capacity) / cell.capacity_C
  if (ratio > UNUSUAL_RATIO || ratio < 1 / UNUSUAL_RATIO)
    findings.warn([...AT, 'capacity'], {
      code: 'capacity-unusual',
      message: `${Math.round(best(capacity) / 3.6)} mAh is ${ratio.toFixed(2)} times what ${cell.name} cells usually hold, ${Math.round(cell.capacity_C / 3.6)} mAh`,
      expected: `about ${Math.round(cell.capacity_C / 3.6)} mAh`,
      cure: 'check the capacity and the type; of several cells in parallel, give that of one',
    })
}
