/**
 * The rows of a CSV text to columns, by the quickest of three readers that can: runs of rows written alike
 * (csv-alike-rows.ts), a row of plain numbers (csv-plain-row.ts), and any line at all (csv-line.ts). Which one reads a row
 * cannot be seen in its numbers.
 */
import { AlikeRows } from './csv-alike-rows.ts'
import { LINE_END } from './csv-byte-codes.ts'
import { readLine } from './csv-line.ts'
import { isPlain, PlainRow } from './csv-plain-row.ts'
import { ROLES, type RowPlan } from './csv-row-plan.ts'
import type { Rows } from './csv-row-room.ts'

/** Damaged lines kept with their text, of one piece. */
const DAMAGED_KEPT = 1000
/** Bytes of alike rows read in one call: short, so that the compiler sees many calls rather than one endless loop. */
const STRETCH = 16384
/** Where fewer rows than this are alike, ever more are read one by one before alike ones are looked for again. */
const WORTHWHILE = 4
const MOST_PATIENCE = 64

/**
 * Reads bytes[from … to − 1] into `rows` from its start. The text is whole lines, and its last byte ends the last of
 * them: that byte stops every loop, so none needs to look for the end of the text.
 */
export function readRows(bytes: Uint8Array, from: number, to: number, plan: RowPlan, rows: Rows): void {
  if (to > from && bytes[to - 1] !== LINE_END) throw new Error('rows are read from whole lines only')
  const words = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const values = new Float64Array(ROLES.length + 1)
  const plain = isPlain(plan) ? new PlainRow(plan, values) : null
  const alike = new AlikeRows(plan, values)
  rows.count = 0
  rows.lines = 0
  rows.damaged.length = 0
  rows.damagedLines = 0
  let single = 1
  let patience = 1
  for (let p = from; p < to; ) {
    if (single === 0) {
      const before = rows.count
      const until = Math.min(to, p + STRETCH)
      p = alike.read(bytes, words, p, until, rows)
      rows.lines += rows.count - before
      if (p >= until) continue
      patience = rows.count - before < WORTHWHILE ? Math.min(2 * patience, MOST_PATIENCE) : 1
      single = patience
    }
    const end = plain === null ? -1 : plain.read(bytes, words, p)
    if (--single === 0 && (end < 0 || !alike.measure(bytes, p)))
      single = patience = Math.min(2 * patience, MOST_PATIENCE)
    if (end < 0) p = readWithCare(bytes, p, plan, rows)
    else {
      keep(values, rows)
      p = end + 1
    }
    rows.lines++
  }
}

function keep(values: Float64Array, rows: Rows): void {
  const { time_s, current_A, voltage_V, count } = rows
  if (time_s !== null) time_s[count] = values[0]
  current_A[count] = values[1]
  if (voltage_V !== null) voltage_V[count] = values[2]
  rows.count++
}

/** Reads the line from `p` on; where the next one starts. */
function readWithCare(bytes: Uint8Array, p: number, plan: RowPlan, rows: Rows): number {
  const end = bytes.indexOf(LINE_END, p)
  const { sample, damaged } = readLine(bytes, p, end, plan)
  if (damaged) {
    rows.damagedLines++
    if (rows.damaged.length < DAMAGED_KEPT)
      rows.damaged.push({ line: rows.lines, sample: rows.count, text: excerpt(bytes, p, end) })
  }
  if (sample !== null) keep(Float64Array.of(sample.time_s, sample.current_A, sample.voltage_V), rows)
  return end + 1
}

function excerpt(bytes: Uint8Array, from: number, to: number): string {
  return new TextDecoder().decode(bytes.subarray(from, Math.min(to, from + 80))).trimEnd()
}
