/**
 * CSV of any usual dialect to columns, in pieces of any size: comma, semicolon, tab, bar or spaces; decimal point or
 * comma; quotes; comment lines (#, %, //); byte order mark; either line end; names and units in a header, or none.
 */
import { type CsvOptions, chooseColumns } from './csv-columns.ts'
import { COMMENTS, findDialect, type Line } from './csv-dialect.ts'
import type { RowPlan } from './csv-row-plan.ts'
import { type DamagedLine, type Rows, rowsFor } from './csv-row-room.ts'
import { readRows } from './csv-rows.ts'
import type { Origin, SampleSink } from './recording.ts'
import { type Wrap, WrappedClock } from './wrapped-clock.ts'

export interface CsvPlan {
  readonly rows: RowPlan
  /** Where the data begin. */
  readonly firstByte: number
  readonly firstLine: number
  readonly interval_s: number | null
  readonly timeResolution_s: number
  readonly origin: Origin
  readonly wrap: Wrap | null
  readonly notes: readonly string[]
}

/** Bytes from the start of a source that settle its dialect. */
export const CSV_HEAD = 65536
/** Settings above a table and enough of its rows to judge them. */
const LINES_LOOKED_AT = 400
const LINE_END = Uint8Array.of(10)
const LONGEST_LINE = 1 << 24

/** How to read a text whose first bytes (`CSV_HEAD`, or all of it) are these. Throws Error with cause and cure. */
export function planCsv(head: Uint8Array, options: CsvOptions = {}): CsvPlan {
  if (head.length === 0) throw new Error('the source is empty')
  if ((head[0] === 0xff && head[1] === 0xfe) || (head[0] === 0xfe && head[1] === 0xff))
    throw new Error('the text is UTF-16; save it as UTF-8')
  if (head.includes(0)) throw new Error('this is not text: it holds zero bytes')
  const lines = linesOf(head)
  const dialect = findDialect(lines, { separator: options.separator, mark: options.mark })
  if (dialect === null) throw new Error('no line of numbers was found in the first lines of this text')
  const choice = chooseColumns(dialect, options)
  const { columns, ...rest } = choice
  return {
    ...rest,
    rows: {
      separator: dialect.separator.charCodeAt(0),
      merge: dialect.separator === ' ',
      mark: dialect.mark.charCodeAt(0),
      comments: COMMENTS.map((mark) => mark.charCodeAt(0)),
      columns,
    },
    firstByte: dialect.data[0].byte,
    firstLine: dialect.data[0].number,
  }
}

/** The first lines of the head, decoded; a line that the end of the head cuts is left out. */
function linesOf(head: Uint8Array): Line[] {
  const decoder = new TextDecoder(isUtf8(head) ? 'utf-8' : 'windows-1252', { ignoreBOM: true })
  const bom = head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf ? 3 : 0
  const lines: Line[] = []
  for (let byte = bom; byte < head.length && lines.length < LINES_LOOKED_AT; ) {
    const end = head.indexOf(10, byte)
    const cut = end < 0 && head.length >= CSV_HEAD && lines.length > 0
    if (cut) break
    const to = end < 0 ? head.length : end
    lines.push({
      text: decoder.decode(head.subarray(byte, to)).replace(/\r$/, ''),
      byte,
      number: lines.length + 1,
    })
    byte = to + 1
  }
  return lines
}

function isUtf8(head: Uint8Array): boolean {
  try {
    // As a stream, so that a character cut by the end of the head is no error.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true })
    return true
  } catch {
    return false
  }
}

/** Passes rows on, with lines counted from the start of the source. Shared by one thread and many. */
export class RowOrder {
  private line: number
  private readonly sink: SampleSink
  private samples = 0
  private readonly clock: WrappedClock | null

  constructor(plan: CsvPlan, sink: SampleSink) {
    this.line = plan.firstLine
    this.clock = plan.wrap && new WrappedClock(plan.wrap)
    this.sink = sink
  }

  pass(rows: Rows): void {
    for (const each of rows.damaged) this.pastDamage(each)
    const more = rows.damagedLines - rows.damaged.length
    if (more > 0) this.sink.damaged(null, this.samples + rows.count, null, more)
    if (rows.time_s) this.clock?.countOn(rows.time_s, rows.count)
    this.sink.columns(rows)
    this.line += rows.lines
    this.samples += rows.count
  }

  private pastDamage(damage: DamagedLine): void {
    this.sink.damaged(this.line + damage.line, this.samples + damage.sample, damage.text, 1)
  }
}

/** Reads the data of a text, from `plan.firstByte` on, pushed in pieces of any size. */
export class CsvStream {
  private rest = new Uint8Array(0)
  private rows: Rows
  private readonly order: RowOrder
  private readonly plan: CsvPlan

  constructor(plan: CsvPlan, sink: SampleSink) {
    this.plan = plan
    this.order = new RowOrder(plan, sink)
    this.rows = rowsFor(0, plan.rows)
  }

  push(pushed: Uint8Array): void {
    // A plain view: the hot loop is compiled for one kind of array, and Node's streams hand over Buffers.
    const piece = new Uint8Array(pushed.buffer, pushed.byteOffset, pushed.byteLength)
    const end = piece.lastIndexOf(10) + 1
    if (end === 0) {
      this.rest = joined(this.rest, piece)
      if (this.rest.length > LONGEST_LINE)
        throw new Error('no line ends within 16 MB; this is not a table of text')
      return
    }
    if (this.rest.length === 0) this.read(piece.subarray(0, end))
    else {
      const first = piece.indexOf(10) + 1
      this.read(joined(this.rest, piece.subarray(0, first)))
      this.read(piece.subarray(first, end))
    }
    this.rest = piece.slice(end)
  }

  end(): void {
    // Rows are read from whole lines, so the last one gets its end where it lacks it.
    if (this.rest.length > 0) this.read(joined(this.rest, LINE_END))
    this.rest = new Uint8Array(0)
  }

  private read(lines: Uint8Array): void {
    if (this.rows.current_A.length < lines.length / 2 + 1) this.rows = rowsFor(lines.length, this.plan.rows)
    readRows(lines, 0, lines.length, this.plan.rows, this.rows)
    this.order.pass(this.rows)
  }
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> {
  const both = new Uint8Array(a.length + b.length)
  both.set(a)
  both.set(b, a.length)
  return both
}
