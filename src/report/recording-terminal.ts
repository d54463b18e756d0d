/** A reading for a terminal: the verdict first, then states, cycles, charge and flaws; 80 columns. */
import { formatQuantity } from '../quantity/format.ts'
import type { Origin } from '../recording/recording.ts'
import { bar } from './bar.ts'
import { energyInWords } from './energy-words.ts'
import type { RecordingReading, StateReading } from './recording-reading.ts'
import { cyclesToTerminal } from './recording-terminal-cycles.ts'
import {
  chargeInWords,
  currentInWords,
  duration,
  flawInWords,
  instrumentInWords,
  percent,
  placeInTime,
} from './recording-words.ts'
import type { Ink } from './terminal.ts'
import { labelled, wrap } from './wrap.ts'

const WIDTH = 78
const NAME = 14
const FLAWS_SHOWN = 4

/** `trace`: one column a character, as `traceLine` draws them. */
export function readingToTerminal(reading: RecordingReading, trace: string, ink: Ink): string {
  const sections = [
    `${ink.strong(reading.file)}\n${ink.accent(wrap(reading.verdict, WIDTH))}`,
    `  ${trace}\n${ink.faint(`  ${sizeInWords(reading)}; the highest current of each column, logarithmic`)}`,
    statesTable(reading, ink),
    cyclesToTerminal(reading, ink),
    totals(reading, ink),
    flawsList(reading, ink),
    ink.faint(wrap(closing(reading), WIDTH)),
  ]
  return `${sections.filter((s) => s !== '').join('\n\n')}\n`
}

function sizeInWords({ span, interval_s, even, origin }: RecordingReading): string {
  const rate = `${even ? '' : 'about '}${formatQuantity(1 / interval_s, 'frequency', { digits: 4 })}`
  return `${duration(span.duration_s)} at ${rate}${sinceInWords(origin, span.from_s)}`
}

const sinceInWords = (origin: Origin, from_s: number): string =>
  origin.kind === 'clock'
    ? ` from ${new Date(1000 * (origin.epoch_s + from_s)).toISOString().slice(0, 19).replace('T', ' ')}`
    : ''

function statesTable(reading: RecordingReading, ink: Ink): string {
  const row = (state: StateReading) =>
    [
      `  ${state.name}${state.rests ? ' at rest' : ''}`.padEnd(12),
      currentInWords(state.current).padStart(20),
      (state.dwell === null ? '–' : duration(state.dwell.median_s)).padStart(10),
      percent(state.timeShare).padStart(9),
      ` ${bar(state.chargeShare, 14)}`,
      percent(state.chargeShare).padStart(8),
    ].join(' ')
  const head = [
    '  State'.padEnd(12),
    'current'.padStart(20),
    'lasts'.padStart(10),
    'of time'.padStart(9),
    ' '.repeat(14),
    'of charge'.padStart(9),
  ].join(' ')
  return [
    ink.strong(head),
    ...reading.states.map(row),
    ...instrumentInWords(reading).map((sentence) => labelled('!', sentence, 1, WIDTH)),
  ].join('\n')
}

function totals({ span, charge, quantiles_A, instrument }: RecordingReading, ink: Ink): string {
  const current = (value: number | null) =>
    value === null ? '–' : formatQuantity(value, 'current', { digits: 3 })
  const [p5, median, p95] = quantiles_A.map(current)
  const known = instrument === null ? '; state the --instrument to learn how sure' : ''
  const rows: [string, string][] = [
    ['Charge', `${chargeInWords(charge)} in ${duration(span.covered_s)}${known}`],
    [
      'Current',
      `mean ${current(span.mean_A)}, RMS ${current(span.rms_A)}, from ${current(span.min_A)} to ${current(span.max_A)}`,
    ],
    ['Of the time', `5 % below ${p5}, half below ${median}, 95 % below ${p95}`],
  ]
  const energy = energyInWords(span, 4)
  if (energy !== null) rows.push(['Energy', energy])
  return [ink.strong('In all'), ...rows.map(([name, text]) => labelled(name, text, NAME, WIDTH))].join('\n')
}

function flawsList({ flawTotals, flaws }: RecordingReading, ink: Ink): string {
  if (flawTotals.length === 0) return ''
  const rows = flawTotals.map((total) => {
    const these = flaws.filter(({ kind }) => kind === total.kind)
    const places = these.slice(0, FLAWS_SHOWN).map(({ line, text, at_s }) => {
      const where = line !== null ? `line ${line}` : at_s === null ? '' : `at ${placeInTime(at_s)}`
      return text === null ? where : `${where} ("${text.slice(0, 24)}")`
    })
    const more = total.places - places.length
    const listed = `${places.join(', ')}${more > 0 ? ` and ${more} more` : ''}`
    return labelled('!', `${flawInWords(total)}; ${listed}`, 1, WIDTH)
  })
  return [ink.strong('What is wrong with it'), ...rows].join('\n')
}

function closing({ samples, instrument, notes }: RecordingReading): string {
  const by =
    instrument === null
      ? 'Behind ± stands twice the standard uncertainty from scatter alone.'
      : `Behind ± stands twice the standard uncertainty, with that of the instrument: ${instrument}.`
  return `${by} Read: ${[`${samples} samples`, ...notes].join('; ')}.`
}
