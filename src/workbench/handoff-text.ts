/** What was handed over, for a terminal of 80 columns: the tables, then what to shut down before each rest. */
import type { Band, Handoff } from '../handoff/handoff.ts'
import type { Dimension } from '../quantity/dimension.ts'
import { formatQuantity } from '../quantity/format.ts'
import { forTerminal } from '../report/for-terminal.ts'
import type { Ink } from '../report/terminal.ts'
import { labelled, wrap } from '../report/wrap.ts'

const WIDTH = 78
const LABEL = 16
/** Characters that leave the column apart from the one before it. */
const LONGEST_INTERVAL = 12

export function handoffToTerminal(handoff: Handoff, ink: Ink): string {
  const { origin, checklist, remarks } = handoff
  const variant = origin.variant === null ? '' : `: ${origin.variant}`
  const sections = [
    ink.strong(`${origin.title}${variant}`),
    intervals(handoff, ink),
    battery(handoff, ink),
    budget(handoff, ink),
    [
      ink.strong('Before each rest'),
      ...checklist.flatMap(({ title, items }) => [
        `  ${ink.accent(title)}`,
        ...items.map(({ what, why }) => `${labelled('☐', what, 1, WIDTH)}\n${ink.faint(indented(why))}`),
      ]),
    ].join('\n'),
    remarks.length === 0
      ? ''
      : [
          ink.strong('Take care'),
          ...remarks.map(({ message, cure }) => labelled('!', `${message}; ${cure}.`, 1, WIDTH)),
        ].join('\n'),
    ink.faint(
      wrap(
        `Written by overwinter handoff ${origin.version} from ${origin.file} (SHA-256 begins with ${origin.fingerprint}), seed ${origin.seed}, ${origin.draws} draws.`,
        WIDTH,
      ),
    ),
  ]
  return forTerminal(`${sections.filter((section) => section !== '').join('\n\n')}\n`)
}

const indented = (text: string) => `    ${wrap(text, WIDTH - 4).replaceAll('\n', '\n    ')}`

function intervals({ rows, alarm, events, clock }: Handoff, ink: Ink): string {
  const shown = rows.map(({ below_mV, above_mV, interval_s, reports_milli }, row) => {
    const interval = interval_s === null ? '–' : intervalWords(interval_s)
    const reports = reports_milli.best / 1000
    return [
      `  ${row}`,
      (below_mV === null ? '–' : `${below_mV} mV`).padStart(14),
      (above_mV === null ? '–' : `${above_mV} mV`).padStart(14),
      interval.padStart(14),
      String(Number(reports.toPrecision(3))).padStart(14),
    ].join('')
  })
  const head = `  row${'entered below'.padStart(14)}${'left above'.padStart(12)}${'interval'.padStart(14)}${'reports a day'.padStart(14)}`
  return [
    ink.strong('Intervals by battery voltage'),
    ink.faint(head),
    ...shown,
    labelled('Alarm', alarmWords(alarm, clock, events), LABEL, WIDTH),
  ].join('\n')
}

/** Exact, in the largest unit that leaves a short number: whole seconds do at last. */
function intervalWords(interval_s: number): string {
  const usual = formatQuantity(interval_s, 'duration')
  if (usual.length <= LONGEST_INTERVAL) return usual
  return interval_s % 60 === 0 ? `${interval_s / 60} min` : `${interval_s} s`
}

function alarmWords(alarm: Handoff['alarm'], clock: Handoff['clock'], events: boolean): string {
  const also = events ? '; events wake it too' : ''
  switch (alarm?.kind) {
    case undefined:
      return 'none: only events wake it'
    case 'rest':
      return `so long after the end of the work${also}`
    case 'rate':
      return `on a grid from midnight of day 0 of the clock${also}`
    case 'clock-minutes':
      return `at a change of the clock's minute${also}`
    case 'times-of-day':
      return `${alarm.times_s.map(timeOfDay).join(', ')} by a clock that keeps ${clock}${also}`
  }
}

const timeOfDay = (second: number) =>
  [second / 3600, (second / 60) % 60, second % 60]
    .map((part) => String(Math.floor(part)).padStart(2, '0'))
    .join(':')

function battery({ latch }: Handoff, ink: Ink): string {
  const rows: [string, string][] = [
    ['Low below', `${latch.low_mV} mV: at ${latch.temperature_C.toFixed(0)} °C, where ${latch.because}`],
    ['Works again from', `${latch.restart_mV} mV`],
    ['Brown-out at', `${latch.brownout_mV} mV with next to no load, drop-out included`],
  ]
  return [
    ink.strong('Battery, read under the rest load'),
    ...rows.map(([name, text]) => labelled(name, text, LABEL, WIDTH)),
  ].join('\n')
}

function budget({ budget: parts }: Handoff, ink: Ink): string {
  const words = ({ low, best, high }: Band, unit: number, dimension: Dimension) => {
    const amount = (value: number) => formatQuantity(value * unit, dimension, { digits: 3 })
    return amount(low) === amount(high) ? amount(best) : `${amount(best)} (${amount(low)} to ${amount(high)})`
  }
  const rows: [string, string][] = [
    ['One wake adds', words(parts.wake_nC, 1e-9, 'charge')],
    ['Rest', words(parts.rest_nA, 1e-9, 'current')],
    ['Self-discharge', words(parts.selfDischarge_nA, 1e-9, 'current')],
    ['Charger, dark', words(parts.chargerNight_nA, 1e-9, 'current')],
    ['Capacity', words(parts.capacity_mC, 1e-3, 'charge')],
  ]
  return [
    ink.strong('Budget at the battery, with nine draws of ten'),
    ...rows.map(([name, text]) => labelled(name, text, LABEL, WIDTH)),
  ].join('\n')
}
