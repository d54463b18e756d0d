/** Which column of a table is the time, the current or the voltage, by what the header calls it. */
import { type Dimension, unitInName } from './header-units.ts'

const NAMED: Record<Dimension, RegExp> = {
  // `amp` as a word of its own: it stands inside `timestamp`, `sample` and `amplitude` as well.
  current: /current|\bi\b|^i_|(?<![a-z])amp(s|eres?|erage)?(?![a-z])|^i(bat|dd|cc|in|out|load)/i,
  voltage: /volt|^[uv]$|^[uv]_|^v(bat|dd|cc|in|out)/i,
  time: /time|^t$|^t_|^ts$|stamp|date|elapsed|\bclock\b/i,
}
const NUMBERED =
  /^(samples?|index|n|no\.?|nr\.?|number|#|count|points?|seq\w*)(\s*(number|no\.?|nr\.?|index|#))?$/i

/** Other columns of current that are not read, by name. */
export function currentsBeside(names: readonly string[] | null, taken: number): readonly string[] {
  return (names ?? []).filter(
    (name, k) => k !== taken && NAMED.current.test(name) && unitInName(name)?.dimension === 'current',
  )
}

/** The column that counts samples; null where none is called so. */
export function numberedColumn(names: readonly string[] | null): number | null {
  const index = names?.findIndex((name) => NUMBERED.test(name.trim())) ?? -1
  return index < 0 ? null : index
}

/** Beside the mean these are another thing than what flowed. */
const NO_MEAN = /(^|[\s_([])(min|max|minimum|maximum|limit|peak|set)([\s_)\].,]|$)/i
/** Volts across what measures are none of the supply. */
const NO_SUPPLY = /shunt|burden|drop/i

/**
 * By unit first, since names vary more; then by name. A unit of another quantity rules a name out, and so do columns that
 * are something else already (`taken`). Null where no column is called so.
 */
export function namedColumn(
  names: readonly string[] | null,
  role: Dimension,
  taken: readonly (number | null)[] = [],
): number | null {
  if (names === null) return null
  const units = names.map(unitInName)
  const find = (fits: (name: string, k: number) => boolean): number | null => {
    const index = names.findIndex(
      (name, k) =>
        !taken.includes(k) && fits(name.trim(), k) && !(role === 'voltage' && NO_SUPPLY.test(name)),
    )
    return index < 0 ? null : index
  }
  const isUnit = (_: string, k: number) => units[k]?.dimension === role
  const isNamed = (name: string, k: number) =>
    NAMED[role].test(name) && (units[k]?.dimension ?? role) === role
  const isBoth = (name: string, k: number) => isUnit(name, k) && isNamed(name, k)
  const both = find((name, k) => isBoth(name, k) && !NO_MEAN.test(name)) ?? find(isBoth)
  if (both !== null) return both
  return role === 'time' ? (find(isNamed) ?? find(isUnit)) : (find(isUnit) ?? find(isNamed))
}
