/**
 * A variant's patch laid over a file, as RFC 7396 merges JSON: mappings key by key, null removes, anything else
 * replaces. Beyond the RFC: a mapping over a list of named entries patches those entries by name.
 */
import type { Path } from './diagnostic.ts'

export interface Merged {
  readonly value: unknown
  /** From a path of the merged data to the path where the file says it. */
  readonly origin: (path: Path) => Path
  /** Patches of entries that the list does not have: where they stand, and the names that it does have. */
  readonly strangers: readonly { readonly path: Path; readonly names: readonly string[] }[]
}

type Mapping = Readonly<Record<string, unknown>>

interface Move {
  readonly to: Path
  readonly from: Path
}

/** `patchAt` is where the patch stands in the file. */
export function mergePatch(base: unknown, patch: unknown, patchAt: Path): Merged {
  const moves: Move[] = []
  const strangers: { path: Path; names: string[] }[] = []
  const value = merge(base, patch, [], [], patchAt)
  return { value, origin: (path) => originOf(moves, path), strangers }

  function merge(under: unknown, over: unknown, to: Path, baseAt: Path, at: Path): unknown {
    moves.push({ to, from: isMapping(over) && isMergeable(under) ? baseAt : at })
    if (!isMapping(over)) return over
    if (isNamedList(under)) return mergeNamed(under, over, to, baseAt, at)
    const merged: Record<string, unknown> = isMapping(under) ? { ...under } : {}
    for (const [key, each] of Object.entries(over))
      if (each === null) delete merged[key]
      else merged[key] = merge(merged[key], each, [...to, key], [...baseAt, key], [...at, key])
    return merged
  }

  function mergeNamed(list: readonly Mapping[], over: Mapping, to: Path, baseAt: Path, at: Path): unknown {
    const names = list.map((entry) => String(entry.name))
    for (const name of Object.keys(over))
      if (!names.includes(name)) strangers.push({ path: [...at, name], names })
    const merged: unknown[] = []
    for (const [i, entry] of list.entries()) {
      const each = over[names[i]]
      if (each === null) continue
      const here = [...to, merged.length]
      const below = [...baseAt, i]
      moves.push({ to: here, from: below })
      merged.push(each === undefined ? entry : merge(entry, each, here, below, [...at, names[i]]))
    }
    return merged
  }
}

/** The longest path that was moved leads the way; the latest of equals. */
function originOf(moves: readonly Move[], path: Path): Path {
  const best = moves.reduce<Move>(
    (found, move) =>
      move.to.length >= found.to.length && move.to.every((part, i) => part === path[i]) ? move : found,
    { to: [], from: [] },
  )
  return [...best.from, ...path.slice(best.to.length)]
}

const isMapping = (value: unknown): value is Mapping =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const isNamedList = (value: unknown): value is readonly Mapping[] =>
  Array.isArray(value) &&
  value.length > 0 &&
  value.every((entry) => isMapping(entry) && typeof entry.name === 'string')

const isMergeable = (value: unknown): boolean => isMapping(value) || isNamedList(value)
