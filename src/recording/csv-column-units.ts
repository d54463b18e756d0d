/** The unit of a column: as asked, or as its header says. */
import type { Dialect } from './csv-dialect.ts'
import { type Dimension, type HeaderUnit, headerUnit, unclearUnit, unitInName } from './header-units.ts'
import { UnclearSource } from './unclear-source.ts'

/** Adds to `notes` what was taken. Throws where the header states one that is not known, or of another quantity. */
export function unitOf(
  role: Dimension,
  index: number,
  asked: string | undefined,
  dialect: Dialect,
  notes: string[],
): HeaderUnit {
  const name = dialect.names?.[index]
  const unit = asked === undefined ? (name === undefined ? null : unitInName(name)) : headerUnit(asked)
  if (asked !== undefined && unit?.dimension !== role) throw new Error(`${asked} is not a unit of ${role}`)
  const label = name === undefined ? `column ${index + 1}` : `"${name}"`
  if (unit?.dimension === role) {
    notes.push(`${role} from ${label} in ${unit.name}`)
    return unit
  }
  const base = { time: 's', current: 'A', voltage: 'V' }[role]
  const unclear = unit?.name ?? (name === undefined ? null : unclearUnit(name))
  if (unclear !== null)
    throw new UnclearSource(
      `${label} is to be the ${role}, and "${unclear}" is no known unit of it; write its unit into the header, as in "${role} (m${base})"`,
      ['unit'],
    )
  notes.push(`${role} from ${label}: no unit stated, taken as ${base}`)
  return { dimension: role, name: base, shift: 0, factor: 1 }
}
