/** The cycles of a reading for a terminal: rhythm, work, charge with its distribution, and odd wakes. */
import type { Cycles } from '../recording/cycles.ts'
import { columnChart, histogramOf } from './recording-histogram.ts'
import type { RecordingReading } from './recording-reading.ts'
import { chargeInWords, duration, namesOf, oddityInWords, placeInTime } from './recording-words.ts'
import type { Ink } from './terminal.ts'
import { labelled } from './wrap.ts'

const WIDTH = 78
const NAME = 14
const ODD_SHOWN = 8
const BINS = 24

type Row = readonly [name: string, text: string]

export function cyclesToTerminal(reading: RecordingReading, ink: Ink): string {
  const { cycles } = reading
  if (cycles.list.length === 0) return ''
  const rows = [...rhythm(reading), ...typical(reading), ...charge(reading)]
  const lines = [ink.strong('Cycles'), ...rows.map(([name, text]) => labelled(name, text, NAME, WIDTH))]
  return [lines.join('\n') + chart(cycles), oddWakes(reading, ink)].filter((s) => s !== '').join('\n\n')
}

const words = (charge_C: number) => chargeInWords({ charge_C, u_C: null })

function rhythm({ cycles, interval_s }: RecordingReading): Row[] {
  const { period_s, jitter_s, clock, work_s } = cycles
  const rows: Row[] = []
  if (period_s !== null) {
    // Edges are known to a sample, so less than that is not seen.
    const seen = (jitter: number) => (jitter < interval_s ? `< ${duration(interval_s)}` : duration(jitter))
    const jitter = jitter_s === null ? '' : `; jitter ${seen(jitter_s)}`
    rows.push(['Period', `${around(period_s.median, period_s.p5, period_s.p95)}${jitter}`])
  }
  if (clock !== null) {
    const every = clock.minutes === 1 ? 'every minute' : `every ${clock.minutes} minutes`
    const second = clock.second_s === null ? 'at the same second' : `at second ${clock.second_s.toFixed(1)}`
    rows.push(['On the clock', `${every}, ${second}, give or take ${duration(clock.deviation_s)}`])
  }
  if (work_s !== null) rows.push(['Work', around(work_s.median_s, work_s.p5_s, work_s.p95_s)])
  return rows
}

const around = (median_s: number, p5_s: number, p95_s: number) =>
  `${duration(median_s)}, nine in ten from ${duration(p5_s)} to ${duration(p95_s)}`

function typical({ cycles, states }: RecordingReading): Row[] {
  if (cycles.typical === null) return []
  const { sequence, wakes } = cycles.typical
  return [['Typical wake', `${namesOf(states, sequence)}: ${wakes} of ${cycles.list.length} wakes`]]
}

function charge({ cycles, cycleCharge }: RecordingReading): Row[] {
  if (cycleCharge === null || cycles.charge_C === null) return []
  return [
    ['Charge', `${chargeInWords(cycleCharge)} a cycle on average, median ${words(cycles.charge_C.median)}`],
  ]
}

/** On a line of its own, with its blanks kept. */
function chart({ list }: Cycles): string {
  const bins = histogramOf(
    list.flatMap(({ charge_C }) => charge_C ?? []),
    BINS,
  )
  if (bins === null) return ''
  return `\n${' '.repeat(NAME + 3)}${words(bins.low)} ▕${columnChart(bins.counts)}▏ ${words(bins.high)}`
}

function oddWakes({ cycles, states }: RecordingReading, ink: Ink): string {
  const odd = cycles.list.filter((cycle) => cycle.odd.length > 0)
  if (odd.length === 0) return ''
  const rows = odd.slice(0, ODD_SHOWN).map(({ start_s, odd: reasons, charge_C }) => {
    const took = charge_C === null ? '' : ` (${words(charge_C)})`
    const reason = reasons.map((each) => oddityInWords(each, states)).join('; ')
    return labelled(placeInTime(start_s), `${reason}${took}`, NAME, WIDTH)
  })
  const more = odd.length - rows.length
  return [
    ink.strong('Odd wakes'),
    ...rows,
    ...(more > 0 ? [ink.faint(`  and ${more} more: --json lists them all`)] : []),
  ].join('\n')
}
