/** The answer of the gate, as plain data and in words; the same words go to the terminal and into JUnit. */
import type { Dimension } from '../quantity/dimension.ts'
import { formatQuantity, inUnit, unitFor } from '../quantity/format.ts'
import { formatUncertain } from '../quantity/format-uncertain.ts'
import { formatMeasured } from '../quantity/measured.ts'
import { best, standardUncertainty } from '../quantity/spread.ts'
import type { Comparison, Gate, GateItem } from '../recording/gate.ts'
import type { Verdict } from '../recording/gate-decision.ts'
import type { FlawTotal } from '../recording/recording.ts'
import { flawSentences } from './recording-words.ts'
import type { Ink } from './terminal.ts'
import { labelled, wrap } from './wrap.ts'

export interface CheckReport extends Gate {
  readonly file: string
  readonly recording: string
  readonly title: string
  readonly instrument: string | null
  readonly slack: number
  /** What the states are called, by their index. */
  readonly states: readonly string[]
  /** What is wrong with the recording. */
  readonly flaws: readonly FlawTotal[]
}

const WIDTH = 78
const COLUMN = 12
const SURE_OF_DIGITS = 3

/** `send (state D)`; a state that is no step by its own name. */
export function itemName({ kind, name, states }: GateItem, { states: called }: CheckReport): string {
  const of = states.map((state) => called[state]).join(' ')
  if (kind === 'state') return `state ${of}`
  return of === '' ? name : `${name} (state${states.length > 1 ? 's' : ''} ${of})`
}

/** What decided and where an excess comes from, in a sentence without its full stop. */
export function itemInWords({ decided, why, parts }: GateItem): string {
  if (decided === null) return why ?? ''
  const excess = parts.filter(({ verdict }) => verdict === 'fail').map(({ quantity }) => quantity)
  const told = [comparisonInWords(decided), ...parts.map(comparisonInWords)].join('; ')
  const from = decided.verdict === 'fail' && excess.length > 0 ? `. Too high: ${excess.join(' and ')}` : ''
  return `${told}${why === null ? '' : `; ${why}`}${from}`
}

function comparisonInWords({ quantity, measured, limit, side }: Comparison): string {
  return `${quantity} ${quantityInWords(measured, quantity)}, ${side === 'at least' ? 'allowed at least' : 'allowed'} ${limitInWords(limit, quantity)}`
}

function quantityInWords(measured: Comparison['measured'], dimension: Dimension): string {
  if (measured.kind === 'below') return formatUncertain(measured, dimension)
  const value = best(measured)
  return formatMeasured(value, standardUncertainty(measured), dimension, wakeUnit(value, dimension))
}

const limitInWords = (limit: number, dimension: Dimension): string =>
  dimension === 'charge'
    ? inUnit(limit, wakeUnit(limit, dimension), SURE_OF_DIGITS + 1)
    : formatQuantity(limit, dimension, { digits: SURE_OF_DIGITS + 1 })

/** A wake is told in coulombs also where a cell would be told in ampere-hours. */
function wakeUnit(value: number, dimension: Dimension) {
  const size = Math.abs(value)
  return unitFor(dimension === 'charge' ? Math.min(size, 3) : size, dimension)
}

export function checkToTerminal(report: CheckReport, strict: boolean, ink: Ink): string {
  const { items, title, slack, instrument, verdict } = report
  const rows = items.map((item) => {
    const text = labelled(item.verdict, `${itemName(item, report)}: ${itemInWords(item)}.`, COLUMN, WIDTH)
    return item.verdict === 'fail' ? ink.strong(text) : text
  })
  const closing = [
    `Pass or fail where the odds are 95 of 100 or more, measurement uncertainty counted (ISO 14253-1, JCGM 106); ± is k = 2.`,
    `A budget's limit is the upper end of its tolerance${slack > 0 ? `, and ${Number((100 * slack).toPrecision(3))} % more` : ''}.`,
    instrument === null
      ? 'No instrument is stated (--instrument), so only scatter counts: its own error is not known.'
      : `Instrument: ${instrument}.`,
    verdict === 'cannot tell'
      ? 'What cannot be told wants a recording of more wakes without clipped or lost time, or a finer instrument.'
      : '',
  ].join(' ')
  return `${[
    `${ink.strong(title)}\n${ink.accent(wrap(checkVerdict(report, strict), WIDTH))}`,
    rows.join('\n'),
    ...flawsPart(report, ink),
    ink.faint(wrap(closing, WIDTH)),
  ].join('\n\n')}\n`
}

function flawsPart({ recording, flaws }: CheckReport, ink: Ink): string[] {
  if (flaws.length === 0) return []
  const rows = flawSentences(recording, flaws).map((sentence) => labelled('!', sentence, 1, WIDTH))
  return [[ink.strong('What is wrong with the recording'), ...rows].join('\n')]
}

export function checkVerdict({ items, recording, file, verdict }: CheckReport, strict: boolean): string {
  const count = (wanted: Verdict) => items.filter((item) => item.verdict === wanted).length
  if (verdict === 'pass') return `${recording} is inside the budget of ${file}.`
  if (verdict === 'fail')
    return `${recording} is outside the budget of ${file} in ${count('fail')} of ${items.length} points.`
  return `Whether ${recording} is inside the budget of ${file} cannot be told from this recording in ${count('cannot tell')} of ${items.length} points${strict ? ', which --strict takes for a no' : ''}.`
}
