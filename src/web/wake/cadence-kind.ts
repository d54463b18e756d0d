/** The rule for the next wake, changed to another: the section is written anew, what can be kept of it is kept. */
import { withEntry, withoutEntry } from '../../outpost/file/edit-entry.ts'
import { withKey } from '../../outpost/file/edit-key.ts'
import type { PlainData } from '../../outpost/file/edit-render.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import type { FieldValue } from '../../outpost/file/field-value.ts'
import { formatQuantity } from '../../quantity/format.ts'
import type { DocumentEdit } from '../form/form.ts'
import { durationOf_s } from './retimed.ts'

export const SCHEDULES = ['rest', 'rate', 'clock minutes', 'times of day'] as const
export type Schedule = (typeof SCHEDULES)[number]
/** `events`: at random alone. */
export type CadenceKind = Schedule | 'events'

export const CADENCE_WORDS: Readonly<Record<CadenceKind, string>> = {
  rest: 'a fixed rest after the work is done',
  rate: 'a fixed rate, on a grid of time',
  'clock minutes': "an alarm when a clock's minute has changed so many times",
  'times of day': 'times of day',
  events: 'random events alone',
}

export const CADENCE = ['cadence'] as const

const USUAL_s = 600
const USUAL_TIMES: PlainData = { at: ['06:00', '18:00'] }
export const USUAL_EVENTS: PlainData = { 'per day': '40' }

/** What stands under `cadence`: its schedules in the order above (one, where the file is sound), and events. */
export function kindOf(keys: readonly (string | number)[]): CadenceKind | null {
  return SCHEDULES.find((kind) => keys.includes(kind)) ?? (keys.includes('events') ? 'events' : null)
}

/** Edits that make `to` the kind of cadence; `valueNow` tells what stands under a key of the section now. */
export function cadenceEdits(
  to: CadenceKind,
  keys: readonly (string | number)[],
  valueNow: (key: string) => FieldValue,
): DocumentEdit[] {
  const present = SCHEDULES.filter((kind) => keys.includes(kind))
  const remove = (kinds: readonly string[]): DocumentEdit[] =>
    kinds.map((kind) => (document) => withoutEntry(document, [...CADENCE, kind]))
  if (to === 'events') {
    const add: DocumentEdit = (document) => withEntry(document, CADENCE, 'events', USUAL_EVENTS)
    return [...(keys.includes('events') ? [] : [add]), ...remove(present)]
  }
  const others = present.filter((kind) => kind !== to)
  const [from] = others
  if (present.includes(to)) return remove(others)
  const text = entryText(to, from === undefined ? { kind: 'absent' } : valueNow(from))
  if (text !== null && from !== undefined && isPlain(valueNow(from)))
    return [
      ...remove(others.slice(1)),
      (document) => withKey(document, [...CADENCE, from], to),
      (document) => withValue(document, [...CADENCE, to], text),
    ]
  const entry: PlainData = text ?? USUAL_TIMES
  return [(document) => withEntry(document, CADENCE, to, entry), ...remove(others)]
}

/** One value without a source of its own: it can be written over, and the comment beside it stays. */
const isPlain = (value: FieldValue): boolean => value.kind === 'text' && value.source === null

/** The interval that there was, as the new kind counts it; null where that is none of one number. */
function entryText(to: Schedule, before: FieldValue): string | null {
  const text = before.kind === 'text' ? before.text : ''
  const minutes = /^\d+$/.test(text.trim()) ? Number(text) : null
  const interval_s = minutes === null ? (durationOf_s(text) ?? USUAL_s) : 60 * minutes
  switch (to) {
    case 'rest':
    case 'rate':
      return minutes === null && durationOf_s(text) !== null ? text : formatQuantity(interval_s, 'duration')
    case 'clock minutes':
      return String(Math.max(1, Math.round(interval_s / 60)))
    case 'times of day':
      return null
  }
}
