/** A thrift table that was found, as edits of the file: the interval of the schedule and the rows below it. */
import type { Answers } from '../../api/work.ts'
import type { Rule } from '../../decisions/thrift.ts'
import type { OutpostDocument } from '../../outpost/file/document.ts'
import { withEntry, withoutEntry } from '../../outpost/file/edit-entry.ts'
import type { PlainData } from '../../outpost/file/edit-render.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import { valueAt } from '../../outpost/file/field-value.ts'
import { formatQuantity } from '../../quantity/format.ts'
import type { DocumentEdit } from '../form/form.ts'
import { isPlayedAsWritten } from './variant-own.ts'

export type Thrifty = Pick<Answers['thrift'], 'schedule' | 'hysteresis_V'> & { readonly table: Rule }

export const volts = (value: number): string => formatQuantity(value, 'voltage', { digits: 4 })
export const time = (value: number): string => formatQuantity(value, 'duration', { digits: 3 })

const CADENCE = ['cadence'] as const
const THRIFT = [...CADENCE, 'thrift'] as const

/** The first row is the schedule's interval; without others the file has no thrift table. */
export function thriftEdits({ schedule, hysteresis_V, table }: Thrifty): DocumentEdit[] {
  const [first, ...lower] = table.rows
  const interval = schedule === 'clock minutes' ? String(first.interval_s / 60) : time(first.interval_s)
  const rows: PlainData = lower.map(({ below_V, interval_s }) => ({
    below: volts(below_V ?? 0),
    interval: time(interval_s),
    hysteresis: volts(hysteresis_V),
  }))
  return [
    (document) => withValue(document, [...CADENCE, schedule], interval),
    (document) => withoutEntry(document, THRIFT),
    ...(lower.length === 0
      ? []
      : [(document: OutpostDocument) => withEntry(document, CADENCE, 'thrift', rows)]),
  ]
}

/** What a press does to the file as it is now. */
export function pressName({ table }: Thrifty, now: OutpostDocument): string {
  if (table.rows.length > 1) return 'Write the table into the file'
  return valueAt(now, THRIFT).kind === 'absent'
    ? 'Write the interval into the file'
    : 'Write the interval into the file, and take its thrift table out'
}

/** Why it cannot be written, and what to do; null where it can. `asked` is the file that the table was found for. */
export function whyNotWritten(
  { schedule }: Thrifty,
  asked: { readonly document: OutpostDocument; readonly variant: string | null },
  now: OutpostDocument,
): string | null {
  const paths = [[...CADENCE, schedule], THRIFT]
  if (paths.some((path) => !isPlayedAsWritten(asked.document, asked.variant, path)))
    return `The variant “${asked.variant}” has a cadence of its own, which a press cannot change. Change it in the text, or choose “as written” and find the table for that.`
  if (valueAt(now, [...CADENCE, schedule]).kind === 'absent')
    return 'The cadence of the file is of another kind than when the table was found. Find it again.'
  return null
}
