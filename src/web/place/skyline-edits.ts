/** The skyline as the file has it, and what moving its points does to the file: one entry at a time, the rest as it is. */
import type { Path } from '../../outpost/file/diagnostic.ts'
import type { OutpostDocument } from '../../outpost/file/document.ts'
import { withEntry, withoutEntry } from '../../outpost/file/edit-entry.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import type { Edited } from '../../outpost/file/splice.ts'
import type { HorizonPoint } from '../../sky/place.ts'
import type { Form } from '../form/form.ts'

export const HORIZON: Path = ['place', 'horizon']

/** A point, and the key that it is written under; null for one that is not written yet. */
export interface SkylinePoint extends HorizonPoint {
  readonly key: string | null
}

/** By azimuth; entries that are no numbers are left to the reader, which says so. */
export function skylineOf(form: Form): SkylinePoint[] {
  return form
    .entriesAt(HORIZON)
    .flatMap((entry): SkylinePoint[] => {
      const key = String(entry)
      const value = form.valueAt([...HORIZON, key])
      const azimuth_deg = Number.parseFloat(key)
      const elevation_deg = value.kind === 'text' ? Number.parseFloat(value.text) : Number.NaN
      return Number.isFinite(azimuth_deg) && Number.isFinite(elevation_deg)
        ? [{ key, azimuth_deg, elevation_deg }]
        : []
    })
    .sort((a, b) => a.azimuth_deg - b.azimuth_deg)
}

type Edit = (document: OutpostDocument) => Edited

/** From one point to another; null as `from` adds, as `to` removes. Whole degrees. */
export function skylineEdits(from: SkylinePoint | null, to: HorizonPoint | null): Edit[] {
  if (to === null) return from?.key == null ? [] : [removing(from.key)]
  const key = String(Math.round(to.azimuth_deg))
  const text = String(Math.round(to.elevation_deg))
  if (from?.key != null && Number.parseFloat(from.key) === Math.round(to.azimuth_deg)) {
    const { key: same } = from
    return [(document) => withValue(document, [...HORIZON, same], text)]
  }
  const adding: Edit = (document) => withEntry(document, HORIZON, key, Number(text))
  return from?.key == null ? [adding] : [adding, removing(from.key)]
}

const removing =
  (key: string): Edit =>
  (document) =>
    withoutEntry(document, [...HORIZON, key])
