/**
 * The rows of a CSV text to columns, by the quickest of three readers that can: runs of rows written alike
 * (csv-alike-rows.ts), rows of plain numbers (csv-plain-rows.ts), and any line at all (csv-line.ts). Which one reads a row
 * cannot be seen in its numbers.
 */
import { AlikeRows } from './csv-alike-rows.ts'
import { LINE_END } from './csv-byte-codes.ts'
import { readLine } from './csv-line.ts'
import { isPlain, PlainRows } from './csv-plain-rows.ts'
import type { RowPlan } from './csv-row-plan.ts'
import type { Rows } from './csv-row-room.ts'

/** Damaged lines kept with their text, of one piece. */
const DAMAGED_KEPT = 1000
/** Where fewer rows than this are alike, a quicker reader is tried ever more rarely: after up to so many rows. */
const WORTHWHILE = 32
const MOST_PATIENCE = 256

/**
 * Reads bytes[from … to − 1] into `rows` from its start. The text is whole lines, and its last byte ends the last of
 * them: that byte stops every loop, so none needs to look for the end of the text.
 */
export function readRows(bytes: Uint8Array, from: number, to: number, plan: RowPlan, rows: Rows): void {
  if (to > from && bytes[to - 1] !== LINE_END) throw new Error('rows are read from whole lines only')
  const words = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const plain = new PlainRows(plan)
  const alike = new AlikeRows(plan)
  rows.count = 0
  rows.lines = 0
  rows.damaged.length = 0
  rows.damagedLines = 0
  let p = from
  if (!isPlain(plan)) while (p < to) p = readWithCare(bytes, p, plan, rows)
  let patience = 1
  let care = 1
  while (p < to) {
    let before = rows.count
    if (alike.measure(bytes, p)) p = alike.read(bytes, words, p, to, rows)
    const run = rows.count - before
    patience = run < WORTHWHILE ? Math.min(2 * patience, MOST_PATIENCE) : 1
    if (run >= WORTHWHILE) care = 1
    before = rows.count
    p = plain.read(bytes, words, p, to, patience, rows)
    const read = rows.count - before
    rows.lines += run + read
    if (read === patience) continue
    care = read === 0 ? Math.min(2 * care, MOST_PATIENCE) : 1
    for (let k = 0; k < care && p < to; k++) p = readWithCare(bytes, p, plan, rows)
  }
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
  rows.lines++
  if (sample === null) return end + 1
  const { time_s, current_A, voltage_V, count } = rows
  if (time_s !== null) time_s[count] = sample.time_s
  current_A[count] = sample.current_A
  if (voltage_V !== null) voltage_V[count] = sample.voltage_V
  rows.count++
  return end + 1
}

function excerpt(bytes: Uint8Array, from: number, to: number): string {
  return new TextDecoder().decode(bytes.subarray(from, Math.min(to, from + 80))).trimEnd()
}
