/** A thrift table for a terminal: what it reports beside the best fixed interval and the ideal; 80 columns. */
import type { Confirmed, Rule, Thrift } from '../decisions/thrift.ts'
import { counted } from '../quantity/counted.ts'
import { formatQuantity } from '../quantity/format.ts'
import { bar } from './bar.ts'
import { forTerminal } from './for-terminal.ts'
import type { Ink } from './terminal.ts'
import { labelled, wrap } from './wrap.ts'

const WIDTH = 78
type Told = Thrift & {
  readonly title: string
  readonly seed: number
  readonly schedule: string
  readonly weather: string
}

export function thriftToTerminal(thrift: Told, ink: Ink): string {
  const { table, bestFixed } = thrift
  const sections = [
    `${ink.strong(thrift.title)}\n${ink.accent(wrap(thriftInWords(thrift), WIDTH))}`,
    table === null || bestFixed === null ? '' : compared(thrift, table, bestFixed, ink),
    table === null ? '' : snippet(thrift, table, ink),
    table === null ? '' : confirmed(thrift, ink),
    ink.faint(
      wrap(
        `${thrift.tries} tables tried on ${counted(thrift.runs, 'device')} for ${counted(thrift.years, 'year')} each, cells of every age, seed ${thrift.seed}. Weather: ${thrift.weather}. Voltage under the rest load, read in steps of ${volts(thrift.resolution_V)}; offset from device to device ± ${volts(2 * thrift.offset_V)} (95 %). The ideal knows the weather, charges and discharges at the best voltage and has no cold but what locks charge in: no rule can report more.`,
        WIDTH,
      ),
    ),
  ]
  return forTerminal(`${sections.filter((text) => text !== '').join('\n\n')}\n`)
}

const volts = (value: number) => formatQuantity(value, 'voltage', { digits: 4 })
const time = (value: number) => formatQuantity(value, 'duration', { digits: 3 })
const percent = (share: number) => `${Number((100 * share).toPrecision(3))} %`
const perDay = (reports: number) => String(Number(reports.toPrecision(4)))

export function thriftInWords({ table, bestFixed, wanted, reached, bound, fixed, confirmed }: Told): string {
  const survival = `${percent(wanted)} of winters or more, with 95 % confidence`
  if (table === null || bestFixed === null) {
    const slowest = time(fixed[fixed.length - 1].interval_s)
    const ideal = bound === null ? ' Not even an ideal that knows the weather would.' : ''
    return `No allowed interval survives ${survival}; not even ${slowest}: allow a longer one, or change the supply.${ideal}`
  }
  if (table.rows.length === 1)
    return `Nothing to save: every ${time(table.rows[0].interval_s)} is survived at any voltage, in ${survival}.`
  const more = table.reportsPerDay / bestFixed.reportsPerDay - 1
  const share =
    reached === null ? '' : `, ${percent(reached.table)} of what an ideal that knows the weather could`
  return `${perDay(table.reportsPerDay)} reports a day${share}: ${percent(more)} more than the best fixed interval, ${time(bestFixed.rows[0].interval_s)}. ${bornOut(confirmed, survival)}`
}

/** What was chosen on some devices is judged by others, which the search has not seen. */
function bornOut(confirmed: Told['confirmed'], survival: string): string {
  if (confirmed === null || (confirmed.table.holds === 'yes' && confirmed.bestFixed.holds === 'yes'))
    return `Both survive ${survival}${confirmed === null ? '' : ', on new devices under other weather too'}.`
  const { share, low, high } = confirmed.table.winters
  return `Both were chosen as surviving ${survival}; on new devices under other weather the table survives ${percent(share)} (${percent(low)} to ${percent(high)}).`
}

function compared({ bound }: Told, table: Rule, bestFixed: Rule, ink: Ink): string {
  const most = bound?.reportsPerDay ?? table.reportsPerDay
  const row = (name: string, reports: number, rest: string) =>
    `  ${name.padEnd(20)} ${bar(reports / most, 20)} ${perDay(reports).padStart(7)}  ${rest}`
  const survived = ({ winters }: Rule) =>
    `${percent(winters.share)} of winters (${percent(winters.low)} to ${percent(winters.high)})`
  return [
    ink.strong('Reports a day'),
    row('best fixed interval', bestFixed.reportsPerDay, survived(bestFixed)),
    ...(table.rows.length === 1 ? [] : [row('this table', table.reportsPerDay, survived(table))]),
    ...(bound === null ? [] : [row('ideal (a bound)', bound.reportsPerDay, 'knows the weather')]),
  ].join('\n')
}

/** As it stands in an outpost file. */
function snippet({ schedule, hysteresis_V }: Told, { rows }: Rule, ink: Ink): string {
  const first =
    schedule === 'clock minutes'
      ? `  clock minutes: ${rows[0].interval_s / 60}`
      : `  ${schedule}: ${time(rows[0].interval_s)}`
  const others = rows
    .slice(1)
    .map(
      ({ below_V, interval_s }) =>
        `    - { below: ${volts(below_V ?? 0)}, interval: ${time(interval_s)}, hysteresis: ${volts(hysteresis_V)} }`,
    )
  return [
    ink.strong('For the outpost file'),
    'cadence:',
    first,
    ...(others.length === 0 ? [] : ['  thrift:', ...others]),
  ].join('\n')
}

function confirmed({ confirmed: both, wanted, table }: Told, ink: Ink): string {
  if (both === null) return ''
  const word = { yes: 'confirmed', no: 'not confirmed', 'cannot tell': 'close' }
  const row = (name: string, { holds, winters, reportsPerDay, runs, years }: Confirmed) =>
    labelled(
      word[holds],
      `${name}: ${percent(winters.share)} of winters (95 % interval ${percent(winters.low)} to ${percent(winters.high)}, wanted ${percent(wanted)}), ${perDay(reportsPerDay)} reports a day, in ${counted(runs, 'new run')} of ${counted(years, 'year')}`,
      14,
      WIDTH,
    )
  return [
    ink.strong(`With other devices and other weather (seed ${both.table.seed})`),
    ...(table?.rows.length === 1 ? [] : [row('this table', both.table)]),
    row('best fixed', both.bestFixed),
  ].join('\n')
}
