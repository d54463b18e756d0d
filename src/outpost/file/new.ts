/**
 * The guided start: five answers, as a person gives them, to a commented outpost file that forecasts at once. The
 * file is read back before it is given out, so that whatever is wrong with an answer is said in the reader's words.
 */
import { stringify } from 'yaml'
import { findCell } from '../../supply/cell-catalogue.ts'
import { fullVoltage_V } from './compile-supply.ts'
import type { Diagnostic, Finding, Path } from './diagnostic.ts'
import { readOutpost } from './read.ts'

/** Answers as text with units; those that are optional have defaults, which the file states. */
export interface Answers {
  /** IEC designation (`LR6`, or `2 x LR6` for two in series), or chemistry and size (`Li-ion 2000 mAh`). */
  readonly cell: string
  /** From wake to wake. */
  readonly interval: string
  readonly awakeFor: string
  readonly awakeCurrent: string
  readonly restCurrent: string
  readonly title?: string
  /** A built-in place. */
  readonly place?: string
  /** Power and voltage at the best point: `1 W at 6 V`. */
  readonly panel?: string
}

/** What is wrong with one answer. */
export interface AnswerProblem extends Omit<Finding, 'severity'> {
  readonly answer: keyof Answers
}

export type NewOutpost =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly AnswerProblem[] }

const USUAL_PLACE = 'London'
/** What a microcontroller class needs where the cell itself knows no end. */
const USUAL_BROWNOUT_V = 1.8

/** `schema` is where the JSON Schema lies as seen from the new file; null leaves the line for editors out. */
export function newOutpost(answers: Answers, schema: string | null = null): NewOutpost {
  const text = write(answers, schema)
  const result = readOutpost(text)
  if (result.ok) return { ok: true, text }
  const problems = result.diagnostics.filter(({ severity }) => severity === 'error').map(problemOf)
  return { ok: false, problems }
}

function problemOf({ path, code, message, expected, cure }: Diagnostic): AnswerProblem {
  return { answer: answerAt(path), code, message, expected, cure }
}

/** Which answer a part of the file was written from. */
function answerAt(path: Path): keyof Answers {
  const [section, part] = path
  if (section === 'title' || section === 'place') return section
  if (section === 'cadence') return 'interval'
  if (section === 'rest') return 'restCurrent'
  if (section === 'wake') return path.includes('draws') ? 'awakeCurrent' : 'awakeFor'
  return part === 'panel' || part === 'charger' ? 'panel' : 'cell'
}

interface AnsweredCell {
  readonly type: string
  readonly series: number
  readonly size: string | null
}

/** `2 x LR6`, `Li-ion 2000 mAh`: count, type and size; what they are worth, the reader says. */
function splitCell(text: string): AnsweredCell {
  const [, count, type, size] = /^(?:(\d+)\s*[x×*]\s*)?(\S*)\s*(.*)$/i.exec(text.trim()) ?? []
  return { type: type ?? '', series: Number(count ?? 1), size: size || null }
}

/** Where the cell is worn down: its own cut-off, or what a device needs where it has none. */
function brownOut_V({ type, series }: AnsweredCell): number {
  const cell = findCell(type)
  if (cell === null) return USUAL_BROWNOUT_V
  if (cell.cutOff_V > 0) return Number((cell.cutOff_V * series).toFixed(2))
  return Math.min(USUAL_BROWNOUT_V, fullVoltage_V({ cell, series }) / 2)
}

/** A text as YAML writes it, quoted where it must be. */
const scalar = (text: string): string => stringify(text, { lineWidth: 0 }).trimEnd()

function write(answers: Answers, schema: string | null): string {
  const cell = splitCell(answers.cell)
  const isCapacitor = findCell(cell.type)?.chemistry === 'supercapacitor'
  const lines = [
    ...(schema === null ? [] : [`# yaml-language-server: $schema=${schema}`]),
    '# What this device does, what feeds it and where it stands. Any number may carry what is known of it:',
    '# 7 mA ± 1 mA, 20..35 mA, < 10 µA, 4 s [2 s, 9 s]; and where it comes from: { is: 7 mA, source: bench log }.',
    '',
    'overwinter: 1',
    `title: ${scalar(answers.title ?? 'New outpost')}`,
    '',
    'wake:',
    '  # One wake, step by step. Split "work" into what it is made of: sense, join the network, send ...',
    '  steps:',
    '    - name: work',
    `      for: ${scalar(answers.awakeFor)}`,
    `      draws: ${scalar(answers.awakeCurrent)}`,
    '      reports: 1',
    '      # peak: 120 mA for 5 ms                     the highest current, which may brown the device out',
    '      # retries: { probability: 5 %, times: 2 }   when sending fails',
    '',
    'cadence:',
    '  # On a fixed grid. Others: rest, clock minutes, times of day, events.',
    `  rate: ${scalar(answers.interval)}`,
    '',
    '# Between wakes, all in all.',
    `rest: ${scalar(answers.restCurrent)}`,
    '',
    'supply:',
    '  cell:',
    `    type: ${scalar(cell.type)}`,
    ...(cell.size === null ? [] : [`    ${isCapacitor ? 'capacitance' : 'capacity'}: ${scalar(cell.size)}`]),
    ...(cell.series === 1 ? [] : [`    series: ${cell.series}`]),
    '  regulator: none',
    "  # The device stops below this: look it up in its data sheet. Here it is the cell's own end.",
    `  brownout: ${brownOut_V(cell)} V`,
    ...(answers.panel === undefined
      ? []
      : ['  charger:', '    kind: linear', '  panel:', `    rated: ${scalar(answers.panel)}`]),
    '',
    'place:',
    '  weather:',
    '    # A built-in place with a like climate; better: "file: year.epw", a weather year from near by.',
    `    place: ${scalar(answers.place ?? USUAL_PLACE)}`,
    '',
    'aims:',
    ...(answers.panel === undefined ? ['  years: 1'] : ['  winters: 95 %']),
    '',
  ]
  return lines.join('\n')
}
