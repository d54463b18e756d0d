/** One line of a CSV text read with care: quotes, absent values, calendar times, comments, damage. */
import { QUOTE, SLASH, SPACE } from './csv-byte-codes.ts'
import { ungrouped } from './csv-fields.ts'
import { parseNumber, shifted } from './csv-number.ts'
import type { ColumnPlan, RowPlan } from './csv-row-plan.ts'
import { calendarSeconds } from './csv-time.ts'
import { OVERLOAD } from './overload.ts'

export interface LineRead {
  /** Null when the line holds none: blank, a comment, or damaged beyond its time. */
  readonly sample: { readonly time_s: number; readonly current_A: number; readonly voltage_V: number } | null
  readonly damaged: boolean
}

const NOTHING: LineRead = { sample: null, damaged: false }
const DAMAGED: LineRead = { sample: null, damaged: true }

/** What loggers write where there is no value; anything else unreadable is damage. */
const ABSENT =
  /^(|[-+]?nan|[-+]?inf(inity)?|-?1\.?#.*|null|none|na|#?n\/a|-?ol|over(load|flow|range)?|-+|\?+)$/i
const decoder = new TextDecoder('latin1')

export function readLine(bytes: Uint8Array, from: number, to: number, plan: RowPlan): LineRead {
  const [start, end] = trimmed(bytes, from, to)
  const lead = bytes[start]
  const comment = plan.comments.includes(lead) && (lead !== SLASH || bytes[start + 1] === SLASH)
  if (start === end || comment) return NOTHING
  let time_s = Number.NaN
  let day_s = Number.NaN
  let current_A = Number.NaN
  let voltage_V = Number.NaN
  let damaged = false
  let column = 0
  let field = from
  if (plan.merge) while (bytes[field] === plan.separator) field++
  for (const wanted of plan.columns) {
    while (column < wanted.index && field <= to) {
      field = nextField(bytes, field, to, plan)
      column++
    }
    const value = field <= to ? readField(bytes, field, to, plan, wanted) : null
    if (value === null) damaged = true
    else if (wanted.role === 'time') time_s = value
    else if (wanted.role === 'day') day_s = value
    else if (wanted.role === 'current') current_A = value
    else voltage_V = value
  }
  const timed = plan.columns.some((wanted) => wanted.role === 'time')
  // Without a time column the place in the file is the time, so a damaged line keeps its place.
  if (plan.columns.some((wanted) => wanted.role === 'day')) time_s += day_s
  if (timed && !Number.isFinite(time_s)) return DAMAGED
  return { sample: { time_s, current_A, voltage_V }, damaged }
}

/** End of the field that starts at `from`: a separator outside quotes, or `to`. */
function fieldEnd(bytes: Uint8Array, from: number, to: number, separator: number): number {
  let p = from
  let quoted = false
  for (; p < to; p++) {
    if (bytes[p] === QUOTE) quoted = !quoted
    else if (bytes[p] === separator && !quoted) break
  }
  return p
}

function nextField(bytes: Uint8Array, from: number, to: number, plan: RowPlan): number {
  let p = fieldEnd(bytes, from, to, plan.separator) + 1
  if (plan.merge) while (p < to && bytes[p] === plan.separator) p++
  return p
}

/** The value of a field: NaN where it says that there is none, null where it says nothing readable. */
function readField(
  bytes: Uint8Array,
  field: number,
  to: number,
  plan: RowPlan,
  wanted: ColumnPlan,
): number | null {
  const end = fieldEnd(bytes, field, to, plan.separator)
  const [start, stop] = trimmed(bytes, field, end)
  const value =
    wanted.kind === 'calendar'
      ? calendarSeconds(bytes, start, stop, wanted.origin, wanted.monthFirst === true, wanted.role === 'day')
      : parseNumber(bytes, start, stop, plan.mark, wanted.shift) * wanted.factor - wanted.origin
  // As it is written: the code is the same in every unit.
  const largest = OVERLOAD * 10 ** wanted.shift * wanted.factor
  if (Number.isFinite(value)) return Math.abs(value) < largest ? value : Number.NaN
  const text = decoder.decode(bytes.subarray(start, stop))
  const grouped = wanted.kind === 'number' ? ungrouped(text, String.fromCharCode(plan.mark)) : null
  if (grouped !== null) return shifted(grouped, wanted.shift) * wanted.factor - wanted.origin
  return text.length < 20 && ABSENT.test(text) ? Number.NaN : null
}

/** Edges of a field without blanks, carriage return and quotes. */
function trimmed(bytes: Uint8Array, from: number, to: number): [number, number] {
  let start = from
  let end = to
  while (start < end && (bytes[start] <= SPACE || bytes[start] === QUOTE)) start++
  while (end > start && (bytes[end - 1] <= SPACE || bytes[end - 1] === QUOTE)) end--
  return [start, end]
}
