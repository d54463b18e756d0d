/** A comparison of recordings for a terminal: the verdict, each difference with its interval and chance, the outlook. */
import { counted } from '../quantity/counted.ts'
import type { Dimension } from '../quantity/dimension.ts'
import { formatQuantity } from '../quantity/format.ts'
import type { StateDifference, Tested } from '../recording/difference.ts'
import type { RecordingComparison } from './recording-comparison.ts'
import { chanceInWords, differenceInWords, lifeChangeInWords } from './recording-comparison-words.ts'
import { currentInWords, flawSentences, percent } from './recording-words.ts'
import type { Ink } from './terminal.ts'
import { labelled, wrap } from './wrap.ts'

const WIDTH = 78

export function comparisonToTerminal(comparison: RecordingComparison, ink: Ink): string {
  const { before, after, difference, verdict } = comparison
  const questions = `Chance: that so much would show between alike recordings, all ${difference.questions} questions allowed for; below ${difference.significance} it counts.`
  const shared = 'Errors of an instrument that both share are not in the intervals.'
  return `${[
    `${ink.strong(`${before.file} → ${after.file}`)}\n${ink.accent(wrap(verdict, WIDTH))}`,
    statesTable(comparison, ink),
    cyclesTable(comparison, ink),
    outlookList(comparison, ink),
    flawsList(comparison, ink),
    ink.faint(wrap(`${questions} ${shared}`, WIDTH)),
  ]
    .filter((section) => section !== '')
    .join('\n\n')}\n`
}

const head = (name: string) =>
  [
    `  ${name}`.padEnd(18),
    'before'.padStart(11),
    'after'.padStart(11),
    'difference (95 %)'.padStart(24),
    'chance'.padStart(10),
  ].join(' ')

function row(name: string, tested: Tested, dimension: Dimension, ink: Ink): string {
  const side = (value: number) => formatQuantity(value, dimension, { digits: 4 }).padStart(11)
  const line = [
    `  ${name}`.padEnd(18),
    side(tested.before),
    side(tested.after),
    differenceInWords(tested, dimension).padStart(24),
    chanceInWords(tested.pAdjusted).padStart(10),
  ].join(' ')
  return tested.significant ? line : ink.faint(line)
}

function statesTable(comparison: RecordingComparison, ink: Ink): string {
  const rows = comparison.difference.states.flatMap((state) => stateRows(state, comparison, ink))
  return [ink.strong(head('State')), ...rows].join('\n')
}

function stateRows(state: StateDifference, { before, after }: RecordingComparison, ink: Ink): string[] {
  const was = state.before === null ? null : before.states[state.before]
  const is = state.after === null ? null : after.states[state.after]
  const only = was ?? is
  if ((was === null || is === null) && only !== null) {
    const chance = state.presence === null ? '' : `, chance ${chanceInWords(state.presence.pAdjusted)}`
    const words = `${currentInWords(only.current)}, ${percent(only.timeShare)} of the time, ${percent(only.chargeShare)} of the charge${chance}`
    return [labelled(`${only.name} ${is === null ? 'vanished' : 'appeared'}`, words, 15, WIDTH)]
  }
  const letters = was?.name === is?.name ? `${was?.name}` : `${was?.name} → ${is?.name}`
  const names = was?.rests && is?.rests ? `${letters} at rest` : letters
  return [
    ...(state.current === null ? [] : [row(names, state.current, 'current', ink)]),
    ...(state.dwell === null ? [] : [row(`  lasts`, state.dwell, 'duration', ink)]),
  ]
}

function cyclesTable({ difference: { charge, work, period } }: RecordingComparison, ink: Ink): string {
  const rows = [
    ...(charge === null ? [] : [row('charge', charge, 'charge', ink)]),
    ...(work === null ? [] : [row('work', work, 'duration', ink)]),
    ...(period === null ? [] : [row('period', period, 'duration', ink)]),
  ]
  return rows.length === 0 ? '' : [ink.strong(head('Each cycle')), ...rows].join('\n')
}

function flawsList({ before, after }: RecordingComparison, ink: Ink): string {
  const sentences = [before, after].flatMap(({ file, flawTotals }) => flawSentences(file, flawTotals))
  if (sentences.length === 0) return ''
  const rows = sentences.map((sentence) => labelled('!', sentence, 1, WIDTH))
  return [ink.strong('What is wrong with them'), ...rows].join('\n')
}

function outlookList({ outlook }: RecordingComparison, ink: Ink): string {
  if (outlook === null) return ''
  const { title, before, after, differences, rechargeable, runs, years, seed } = outlook
  const { survival, life_days } = differences
  const points = (share: number) => (100 * share).toFixed(1)
  const change = rechargeable
    ? `${points(survival.mean)} winters of 100 (95 % interval ${points(survival.low)} to ${points(survival.high)})`
    : lifeChangeInWords(life_days)
  return [
    ink.strong(title),
    wrap('  What each recording shows, in place of the steps and the rest of the file:', WIDTH),
    labelled('before', before.verdict, 10, WIDTH),
    labelled('after', after.verdict, 10, WIDTH),
    labelled(
      'change',
      `${change}, run by run through the same weather; ${counted(runs, 'run')} of ${counted(years, 'year')}, seed ${seed}`,
      10,
      WIDTH,
    ),
  ].join('\n')
}
