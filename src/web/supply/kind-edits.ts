/** A part of the supply made another kind: what the new kind knows is kept, what it does not goes, what it needs is added. */
import { withEntry, withoutEntry } from '../../outpost/file/edit-entry.ts'
import type { PlainData } from '../../outpost/file/edit-render.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import type { DocumentEdit } from '../form/form.ts'

export interface KindRules {
  /** Keys beside `kind` that it may have. */
  readonly allowed: readonly string[]
  /** What it cannot be without, and what is written there until it is known better. */
  readonly needed: Readonly<Record<string, PlainData>>
}

const SUPPLY = ['supply'] as const

/** `keys` are those of the part as it is written now; empty where it is no mapping. */
export function kindEdits(
  part: string,
  kind: string,
  { allowed, needed }: KindRules,
  keys: readonly (string | number)[],
): DocumentEdit[] {
  const at = [...SUPPLY, part]
  if (keys.length === 0) return [(document) => withEntry(document, SUPPLY, part, { kind, ...needed })]
  const strange = keys.filter((key) => key !== 'kind' && !allowed.includes(String(key)))
  const missing = Object.entries(needed).filter(([key]) => !keys.includes(key))
  return [
    (document) => withValue(document, [...at, 'kind'], kind),
    ...missing.map(
      ([key, value]): DocumentEdit =>
        (document) =>
          withEntry(document, at, key, value),
    ),
    ...strange.map(
      (key): DocumentEdit =>
        (document) =>
          withoutEntry(document, [...at, key]),
    ),
  ]
}
