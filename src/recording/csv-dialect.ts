/** How a CSV text is written: separator, decimal mark, where its data begin and what its header says. */
import { fieldsOf, numberIn } from './csv-fields.ts'
import { fittedFields, headerNames } from './csv-header.ts'
import { parseCalendar } from './csv-time.ts'
import { unitInName } from './header-units.ts'

export interface Line {
  readonly text: string
  /** Place in the file, in bytes. */
  readonly byte: number
  /** From 1. */
  readonly number: number
}

export interface Dialect {
  readonly separator: string
  readonly mark: '.' | ','
  /** Column names, or null without header. */
  readonly names: readonly string[] | null
  readonly columns: number
  /** The line right above the data, where it states units and yet is no header: for another number of columns. */
  readonly misfit: { readonly line: number; readonly names: readonly string[] } | null
  /** Lines of text above the header that are neither blank nor comments. */
  readonly passedOver: number
  /** The lines of data within the head that was looked at. */
  readonly data: readonly Line[]
}

const SEPARATORS = ['\t', ';', ',', '|', ' ']
export const COMMENTS = ['#', '%', '/']
const ABSENT = /^(nan|inf|-+|null|none|n\/?a|ol|)$/i

function isDatum(field: string, mark: string): boolean {
  const otherMark = mark === ',' && field.includes('.') && !field.includes(',')
  if (!otherMark && Number.isFinite(numberIn(field, mark))) return true
  return ABSENT.test(field) || parseCalendar(field, true) !== null || parseCalendar(field, false) !== null
}

interface Candidate extends Dialect {
  readonly score: number
}

/** The dialect that explains most lines; null when no line holds data. `fixed` narrows the search. */
export function findDialect(
  lines: readonly Line[],
  fixed: { separator?: string | undefined; mark?: '.' | ',' | undefined },
): Dialect | null {
  let best: Candidate | null = null
  for (const separator of fixed.separator === undefined ? SEPARATORS : [fixed.separator])
    for (const mark of fixed.mark === undefined ? (['.', ','] as const) : [fixed.mark]) {
      // Commas can be both only where quotes tell them apart.
      if (separator === mark && !lines.some((line) => line.text.includes('"'))) continue
      const candidate = judge(lines, separator, mark)
      if (candidate && (!best || candidate.score > best.score)) best = candidate
    }
  return best
}

function judge(lines: readonly Line[], separator: string, mark: '.' | ','): Candidate | null {
  const rows = lines
    .filter((line) => line.text.trim() !== '' && !COMMENTS.includes(line.text.trimStart()[0]))
    .map((line) => {
      const fields = fieldsOf(line.text, separator)
      return { line, fields, data: fields.filter((field) => isDatum(field, mark)).length }
    })
  if (rows.length === 0) return null
  const columns = mostFrequent(rows.map((row) => row.fields.length))
  const regular = rows.filter((row) => row.fields.length === columns)
  // Of a header and one row, the row is the datum.
  const usual = mostFrequent(regular.map((row) => row.data).sort((a, b) => b - a))
  const start = regular.find((row) => row.data >= usual && row.fields.some((field) => /\d/.test(field)))
  if (usual === 0 || !start) return null
  const filled = Math.max(
    ...regular
      .filter((row) => row.data >= usual)
      .map(({ fields }) => fields.findLastIndex((f) => f !== '') + 1),
  )
  const fitted = (text: string, fields: readonly string[]) =>
    fittedFields({ text, fields }, separator, columns, filled)
  const before = rows
    .filter((row) => row.line.number < start.line.number)
    .map((row) => ({ ...row, names: fitted(row.line.text, row.fields) }))
  const head = before.findLastIndex(
    ({ names }) => names !== null && names.filter((field) => isDatum(field, mark)).length < usual,
  )
  const names =
    head >= 0
      ? headerNames(before.slice(0, head + 1).map((row) => row.names))
      : commentNames(lines, start.line, (text) => fitted(text, fieldsOf(text, separator)))
  const last = before.at(-1)
  const misfit =
    names === null &&
    last !== undefined &&
    last.fields.length > 1 &&
    last.fields.some((f) => unitInName(f) !== null)
      ? { line: last.line.number, names: last.fields }
      : null
  const explained = regular.reduce((sum, row) => sum + row.data / columns, 0)
  // A header that agrees, and more columns, decide between readings that explain the lines about equally well.
  const score =
    explained / rows.length + (names ? 0.5 : 0) + (columns > 1 ? 0.25 : 0) + Math.min(columns, 10) / 1000
  // What stands between a header and the first good row is damage, to be reported; above it are settings.
  const first = head >= 0 ? before[head].line.number + 1 : start.line.number
  const data = lines.filter((line) => line.number >= first)
  const passedOver = head >= 0 ? head : before.length
  return { separator, mark, names, columns, misfit, data, passedOver, score }
}

/** Column names in a comment right above the data, as numeric tools write them. */
function commentNames(
  lines: readonly Line[],
  start: Line,
  fitted: (text: string) => readonly string[] | null,
): readonly string[] | null {
  const above = lines.findLast((line) => line.number < start.number && line.text.trim() !== '')
  if (!above || !COMMENTS.includes(above.text.trimStart()[0])) return null
  const names = fitted(above.text.trimStart().replace(/^[#%/]+/, ''))
  return names?.some((name) => /[a-z]/i.test(name)) ? names : null
}

function mostFrequent(values: readonly number[]): number {
  const counts = new Map<number, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  return [...counts].reduce((best, each) => (each[1] > best[1] ? each : best))[0]
}
