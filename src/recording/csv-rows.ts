/**
 * The rows of a CSV text to columns, byte by byte. This is the loop that a whole import waits for: plain numbers of up
 * to nine digits on each side of the mark are read in place with integer arithmetic and make no strings and no objects;
 * whatever else stands in a field goes to the careful readers beside it.
 */
import { POWERS_OF_TEN, parseNumber } from './csv-number.ts'
import { calendarSeconds } from './csv-time.ts'

/** One column that is wanted. The value read is number · 10^shift · factor − origin. */
export interface ColumnPlan {
  readonly role: 'time' | 'current' | 'voltage'
  /** Place in the line, from 0. */
  readonly index: number
  readonly kind: 'number' | 'calendar'
  readonly shift: number
  readonly factor: number
  readonly origin: number
}

/** How the rows are written. Plain data, so that it can be handed to another thread. */
export interface RowPlan {
  readonly separator: number
  /** Separators in a row count as one (columns lined up with spaces). */
  readonly merge: boolean
  readonly mark: number
  readonly comments: readonly number[]
  /** In rising order of place, at most one per role. */
  readonly columns: readonly ColumnPlan[]
}

export interface DamagedLine {
  /** Lines after the first of this text, from 0. */
  readonly line: number
  /** Samples read before it. */
  readonly sample: number
  readonly text: string
}

export interface Rows {
  count: number
  /** Lines gone through, whatever they held. */
  lines: number
  readonly time_s: Float64Array | null
  readonly current_A: Float32Array
  readonly voltage_V: Float32Array | null
  /** The first `DAMAGED_KEPT` of them, and how many there are. */
  readonly damaged: DamagedLine[]
  damagedLines: number
}

export const DAMAGED_KEPT = 1000
const LINE_END = 10
const RETURN = 13
const SPACE = 32
const QUOTE = 34
const MINUS = 45

/** Room for the rows that a text of so many bytes can hold at most: a digit and an end of line each. */
export function rowsFor(bytes: number, plan: RowPlan): Rows {
  const most = Math.ceil(bytes / 2) + 1
  const has = (role: ColumnPlan['role']) => plan.columns.some((column) => column.role === role)
  return {
    count: 0,
    lines: 0,
    time_s: has('time') ? new Float64Array(most) : null,
    current_A: new Float32Array(most),
    voltage_V: has('voltage') ? new Float32Array(most) : null,
    damaged: [],
    damagedLines: 0,
  }
}

/** Reads bytes[from … to − 1], whole lines only (the last may lack its end), into `rows` from its start. */
export function readRows(bytes: Uint8Array, from: number, to: number, plan: RowPlan, rows: Rows): void {
  const { separator, merge, mark, columns } = plan
  const wanted = columns.length
  const indices = Int32Array.from(columns, (column) => column.index)
  const plain = Int32Array.from(columns, (column) => (column.kind === 'number' ? 1 : 0))
  const shifts = Int32Array.from(columns, (column) => column.shift)
  const factors = Float64Array.from(columns, (column) => column.factor)
  const origins = Float64Array.from(columns, (column) => column.origin)
  const values = new Float64Array(wanted)
  const timeAt = columns.findIndex((column) => column.role === 'time')
  const currentAt = columns.findIndex((column) => column.role === 'current')
  const voltageAt = columns.findIndex((column) => column.role === 'voltage')
  const { time_s, current_A, voltage_V } = rows
  const firstComment = plan.comments[0] ?? -1
  const secondComment = plan.comments[1] ?? -1
  const thirdComment = plan.comments[2] ?? -1
  rows.damaged.length = 0
  rows.damagedLines = 0
  let count = 0
  let lines = 0
  let p = from

  while (p < to) {
    const lineStart = p
    let column = 0
    let got = 0
    let c = 0
    while (got < wanted && p < to) {
      // To the start of the wanted column; quotes may hide separators.
      if (merge) while (p < to && bytes[p] === separator) p++
      while (column < indices[got] && p < to) {
        c = bytes[p]
        if (c === LINE_END) break
        p++
        if (c === QUOTE) {
          while (p < to && bytes[p] !== QUOTE && bytes[p] !== LINE_END) p++
          if (p < to && bytes[p] === QUOTE) p++
        } else if (c === separator) {
          column++
          if (merge) while (p < to && bytes[p] === separator) p++
        }
      }
      if (column < indices[got]) break
      const fieldStart = p
      // The quick way: sign, up to nine digits, mark, up to nine digits.
      c = bytes[p]
      const quoted = c === QUOTE
      if (quoted) c = bytes[++p]
      while (c === SPACE && p < to && separator !== SPACE) c = bytes[++p]
      const negative = c === MINUS
      if (negative) p++
      let whole = 0
      let fraction = 0
      let decimals = 0
      const wholeStart = p
      let digit = p < to ? bytes[p] - 48 : -1
      while (digit >= 0 && digit <= 9) {
        whole = (whole * 10 + digit) | 0
        digit = ++p < to ? bytes[p] - 48 : -1
      }
      const wholeDigits = p - wholeStart
      if (p < to && bytes[p] === mark) {
        const fractionStart = ++p
        digit = p < to ? bytes[p] - 48 : -1
        while (digit >= 0 && digit <= 9) {
          fraction = (fraction * 10 + digit) | 0
          digit = ++p < to ? bytes[p] - 48 : -1
        }
        decimals = p - fractionStart
      }
      if (quoted && p < to && bytes[p] === QUOTE) p++
      c = p < to ? bytes[p] : LINE_END
      const power = decimals - shifts[got]
      const quick =
        plain[got] === 1 &&
        (c === separator || c === LINE_END || c === RETURN) &&
        wholeDigits + decimals > 0 &&
        wholeDigits <= 9 &&
        decimals <= 9 &&
        (wholeDigits + decimals <= 15 || whole === 0) &&
        power >= 0 &&
        power <= 22
      if (quick) {
        const mantissa = whole * POWERS_OF_TEN[decimals] + fraction
        const size = (mantissa / POWERS_OF_TEN[power]) * factors[got]
        values[got] = (negative ? -size : size) - origins[got]
      } else {
        p = fieldEnd(bytes, fieldStart, to, separator)
        values[got] = readField(bytes, fieldStart, p, plan, columns[got])
      }
      got++
    }
    // Past the rest of the line.
    if (p < to && bytes[p] !== LINE_END) {
      if (bytes[p] === RETURN) p++
      if (p < to && bytes[p] !== LINE_END) {
        const end = bytes.indexOf(LINE_END, p)
        p = end < 0 || end > to ? to : end
      }
    }
    const lineEnd = p
    p++
    lines++
    const time = timeAt < 0 ? 0 : values[timeAt]
    const current = values[currentAt]
    // A number that is not one costs a second look; a clean row goes straight on.
    if (got === wanted && time - time === 0 && current - current === 0) {
      if (time_s !== null) time_s[count] = time
      if (voltage_V !== null) voltage_V[count] = values[voltageAt]
      current_A[count++] = current
      continue
    }
    const start = skipBlanks(bytes, lineStart, lineEnd)
    const lead = bytes[start]
    if (start === lineEnd || lead === firstComment || lead === secondComment || lead === thirdComment)
      continue
    const timeKnown = timeAt < 0 || (got > timeAt && Number.isFinite(time))
    const absent = got > currentAt && isAbsent(bytes, lineStart, lineEnd, plan, columns[currentAt].index)
    if (!timeKnown || !absent) {
      rows.damagedLines++
      if (rows.damaged.length < DAMAGED_KEPT)
        rows.damaged.push({ line: lines - 1, sample: count, text: excerpt(bytes, lineStart, lineEnd) })
    }
    // Without a time column the place in the file is the time, so a damaged line keeps its place.
    if (!timeKnown) continue
    if (time_s !== null) time_s[count] = time
    if (voltage_V !== null) voltage_V[count] = Number.NaN
    current_A[count++] = got > currentAt && current - current === 0 ? current : Number.NaN
  }
  rows.count = count
  rows.lines = lines
}

function fieldEnd(bytes: Uint8Array, from: number, to: number, separator: number): number {
  let p = from
  if (bytes[p] === QUOTE) {
    p++
    while (p < to && bytes[p] !== QUOTE && bytes[p] !== LINE_END) p++
  }
  while (p < to && bytes[p] !== separator && bytes[p] !== LINE_END) p++
  return p
}

/** Edges of a field without blanks, carriage return and quotes. */
function trimmed(bytes: Uint8Array, from: number, to: number): [number, number] {
  while (from < to && (bytes[from] <= SPACE || bytes[from] === QUOTE)) from++
  while (to > from && (bytes[to - 1] <= SPACE || bytes[to - 1] === QUOTE)) to--
  return [from, to]
}

function readField(bytes: Uint8Array, start: number, end: number, plan: RowPlan, column: ColumnPlan): number {
  const [from, to] = trimmed(bytes, start, end)
  if (column.kind === 'calendar') return calendarSeconds(bytes, from, to, column.origin)
  return parseNumber(bytes, from, to, plan.mark, column.shift) * column.factor - column.origin
}

const ABSENT =
  /^(|nan|-nan|\+?inf(inity)?|-inf(inity)?|-?1\.?#.*|null|none|na|n\/a|#n\/a|ol|-ol|over(load|flow|range)?|-+|\?+)$/i
const decoder = new TextDecoder('latin1')

/** True when the field says in the usual ways that there is no value; anything else unreadable is damage. */
function isAbsent(bytes: Uint8Array, from: number, to: number, plan: RowPlan, index: number): boolean {
  let p = from
  if (plan.merge) while (p < to && bytes[p] === plan.separator) p++
  for (let column = 0; column < index; column++) {
    p = fieldEnd(bytes, p, to, plan.separator) + 1
    if (plan.merge) while (p < to && bytes[p] === plan.separator) p++
  }
  if (p > to) return false
  const [start, end] = trimmed(bytes, p, fieldEnd(bytes, p, to, plan.separator))
  return end - start < 20 && ABSENT.test(decoder.decode(bytes.subarray(start, end)))
}

function skipBlanks(bytes: Uint8Array, from: number, to: number): number {
  while (from < to && bytes[from] <= SPACE) from++
  return from
}

function excerpt(bytes: Uint8Array, from: number, to: number): string {
  return new TextDecoder().decode(bytes.subarray(from, Math.min(to, from + 80))).trimEnd()
}
