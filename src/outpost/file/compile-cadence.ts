/** From what the file says of the cadence to the engine's schedule, events and thrift table. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { exactly } from '../../quantity/uncertain.ts'
import type { Cadence, ClockTime, ThriftRow } from '../../wake/wake.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'
import { namedZone } from './zone.ts'

type CadenceEntry = OutpostFile['cadence']
type Kind = keyof typeof KINDS

/** Keys of which one at most may stand, and what a thrift row replaces in each. */
const KINDS = { rest: true, rate: true, 'clock minutes': true, 'times of day': false } as const
export const CADENCE_KINDS = Object.keys(KINDS) as readonly Kind[]

/** What a row keeps clear of its threshold where the file is silent. */
const USUAL_HYSTERESIS_V = 0.05

const MINUTE_s = 60
/** Hours and days times their seconds leave this much behind in binary: 1.1 h is 3960.0000000000005 s. */
const NOISE = 1e-9

/** `placeZone` is the zone of the place, null where it is not known. */
export function compileCadence(entry: CadenceEntry, placeZone: string | null, findings: Findings): Cadence {
  const given = CADENCE_KINDS.filter((kind) => entry[kind] !== undefined)
  if (given.length === 0 && entry.events === undefined)
    findings.error(
      ['cadence'],
      {
        code: 'cadence-missing',
        message: 'nothing ever wakes the device',
        expected: `one of ${CADENCE_KINDS.join(', ')}; or events`,
        cure: 'add "rest: 10 min", for example',
      },
      'key',
    )
  for (const kind of given.slice(1))
    findings.error(
      ['cadence', kind],
      {
        code: 'cadence-ambiguous',
        message: `"${given[0]}" and "${kind}" both say when the next wake is`,
        expected: `one of ${CADENCE_KINDS.join(', ')}`,
        cure: `keep one of "${given[0]}" and "${kind}"`,
      },
      'key',
    )
  return {
    schedule: given.length === 0 ? null : compileSchedule(entry, given[0], placeZone, findings),
    events: entry.events ? { perDay: entry.events['per day'].value } : null,
    thrift: compileThrift(entry, given[0], findings),
  }
}

function compileSchedule(
  entry: CadenceEntry,
  kind: Kind,
  placeZone: string | null,
  findings: Findings,
): Cadence['schedule'] {
  if (entry.rest && kind === 'rest') return { kind: 'rest', rest_s: entry.rest.value }
  if (entry.rate && kind === 'rate') return { kind: 'rate', period_s: entry.rate.value }
  const minutes = entry['clock minutes']
  if (minutes !== undefined && kind === 'clock minutes') return { kind: 'clock-minutes', minutes }
  const day = entry['times of day']
  return day
    ? {
        kind: 'times-of-day',
        times: compileTimes(day.at, findings),
        zone: zoneOf(day.zone, placeZone, findings),
      }
    : null
}

function compileTimes(at: readonly string[], findings: Findings): ClockTime[] {
  const seen = new Set<number>()
  return at.flatMap((text, i) => {
    const match = /^([01]?\d|2[0-3]):([0-5]\d)(?::([0-5]\d))?$/.exec(text.trim())
    const path = ['cadence', 'times of day', 'at', i]
    if (match === null) {
      findings.error(path, {
        code: 'bad-time',
        message: `"${text}" is no time of day`,
        expected: 'a time from 00:00 to 23:59',
        cure: 'write it with 24 hours, as in "06:30"',
      })
      return []
    }
    const [hour, minute, second] = match.slice(1).map((part) => Number(part ?? 0))
    const moment = hour * 3600 + minute * 60 + second
    if (seen.has(moment))
      findings.error(path, {
        code: 'duplicate-time',
        message: `${text} stands in the list twice`,
        expected: 'each time once',
        cure: 'remove one of the two',
      })
    seen.add(moment)
    return [{ hour, minute, second }]
  })
}

function zoneOf(zone: string | undefined, placeZone: string | null, findings: Findings): string {
  if (zone === undefined && placeZone !== null) {
    findings.assume(['cadence', 'times of day', 'zone'], `${placeZone}, as the place has it`, 'place')
    return placeZone
  }
  const named = zone === undefined ? null : namedZone(zone)
  if (named !== null) return named
  findings.error(['cadence', 'times of day', 'zone'], {
    code: 'unknown-zone',
    message: zone === undefined ? 'in which time zone?' : `"${zone}" is no time zone`,
    expected: 'an IANA name as "Europe/Oslo", or "UTC+1"',
    cure: 'name the zone after its largest city',
  })
  return 'UTC'
}

/** What a thrift row replaces, in seconds; null where the cadence has no interval. */
function intervalOf(entry: CadenceEntry, kind: Kind | undefined): number | null {
  if (kind === 'rest' && entry.rest) return best(entry.rest.value)
  if (kind === 'rate' && entry.rate) return best(entry.rate.value)
  const minutes = kind === 'clock minutes' ? entry['clock minutes'] : undefined
  return minutes === undefined ? null : minutes * MINUTE_s
}

function compileThrift(entry: CadenceEntry, kind: Kind | undefined, findings: Findings): ThriftRow[] {
  const { thrift } = entry
  if (thrift === undefined) return []
  if (kind === undefined || !KINDS[kind])
    findings.error(
      ['cadence', 'thrift'],
      {
        code: 'thrift-without-interval',
        message: `a thrift table replaces an interval, and ${kind ? `"${kind}" has` : 'random events have'} none`,
        expected: 'thrift beside rest, rate or clock minutes',
        cure: 'remove the thrift table, or give an interval',
      },
      'key',
    )
  const rows = thrift.map((row, i): ThriftRow & { readonly best_V: number } => {
    const path = ['cadence', 'thrift', i]
    const interval_s = best(row.interval.value)
    if (row.hysteresis === undefined)
      findings.assume([...path, 'hysteresis'], `${USUAL_HYSTERESIS_V} V`, 'default')
    const isClock = kind === 'clock minutes'
    const minutes = Math.round(interval_s / MINUTE_s)
    if (isClock && !(minutes > 0 && Math.abs(interval_s - minutes * MINUTE_s) < NOISE * interval_s))
      findings.error([...path, 'interval'], {
        code: 'thrift-not-whole-minutes',
        message: `an alarm in clock minutes cannot wait ${formatQuantity(interval_s, 'duration')}`,
        expected: 'whole minutes',
        cure: 'round to a whole minute',
      })
    return {
      below_V: row.below.value,
      hysteresis_V: row.hysteresis?.value ?? exactly(USUAL_HYSTERESIS_V),
      interval_s: isClock ? minutes * MINUTE_s : interval_s,
      best_V: best(row.below.value),
    }
  })
  const usual_s = intervalOf(entry, kind)
  if (usual_s !== null && rows[0].interval_s < usual_s)
    findings.warn(['cadence', 'thrift', 0, 'interval'], {
      code: 'thrift-less-thrifty',
      message: `below ${rows[0].best_V} V it wakes more often than above, where ${formatQuantity(usual_s, 'duration')} pass`,
      expected: 'intervals that grow as the voltage falls',
      cure: `check this interval and "${kind}"`,
    })
  for (let i = 1; i < rows.length; i++) {
    const [before, now] = [rows[i - 1], rows[i]]
    if (now.best_V >= before.best_V)
      findings.error(['cadence', 'thrift', i, 'below'], {
        code: 'thrift-order',
        message: `${now.best_V} V comes after ${before.best_V} V`,
        expected: 'voltages that fall from row to row',
        cure: 'put the rows in order of falling voltage',
      })
    if (now.interval_s < before.interval_s)
      findings.warn(['cadence', 'thrift', i, 'interval'], {
        code: 'thrift-less-thrifty',
        message: `below ${now.best_V} V it wakes more often than below ${before.best_V} V`,
        expected: 'intervals that grow as the voltage falls',
        cure: 'check the intervals of both rows',
      })
  }
  return rows.map(({ best_V: _, ...row }) => row)
}
