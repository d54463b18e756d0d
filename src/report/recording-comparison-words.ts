/** What a comparison of recordings says in words: one difference, one state, and the verdict. */
import type { Differences } from '../decisions/compare-variants.ts'
import { lifeInWords } from '../outlook/verdict.ts'
import { counted } from '../quantity/counted.ts'
import type { Dimension } from '../quantity/dimension.ts'
import { unitFor } from '../quantity/format.ts'
import { formatMeasured } from '../quantity/measured.ts'
import type { StateDifference, Tested } from '../recording/difference.ts'
import type { OutlookPair, RecordingComparison } from './recording-comparison.ts'
import type { RecordingReading } from './recording-reading.ts'
import { chargeInWords, currentInWords, duration } from './recording-words.ts'

/** `+5.30 ± 0.007 µA`: with its 95 % interval, in the unit that the larger of both sides is told in. */
export function differenceInWords(
  { before, after, difference, low, high }: Tested,
  dimension: Dimension,
): string {
  const unit = unitFor(Math.max(Math.abs(difference), (high - low) / 2), dimension)
  const half = (high - low) / 2
  const sign = difference > 0 ? '+' : ''
  return before === after ? 'none' : `${sign}${formatMeasured(difference, half / 2, dimension, unit)}`
}

/** Of chance alone, all questions allowed for. */
export function chanceInWords(p: number): string {
  return p < 0.001 ? '< 0.001' : p < 0.1 ? p.toPrecision(1) : p.toFixed(2)
}

/** `7.5 years less (95 % interval 7.3 to 7.7)`, in days where it is little. */
export function lifeChangeInWords({ mean, low, high }: Differences['life_days']): string {
  const inYears = Math.abs(mean) >= 2 * 365
  const amount = (days: number) => (inYears ? (days / 365).toFixed(1) : String(Math.round(days)))
  const [least, most] = mean < 0 ? [-high, -low] : [low, high]
  return `${amount(Math.abs(mean))} ${inYears ? 'years' : 'days'} ${mean < 0 ? 'less' : 'more'} (95 % interval ${amount(least)} to ${amount(most)})`
}

type Told = Omit<RecordingComparison, 'verdict'>

export function comparisonVerdict(comparison: Told): string {
  return [
    cycleSentence(comparison),
    ...statesSentences(comparison),
    outlookSentence(comparison.outlook),
    ...[comparison.before, comparison.after].map(flawsSentence),
  ]
    .filter((sentence) => sentence !== '')
    .join(' ')
}

/** What may be behind a difference that is none. */
function flawsSentence({ file, flawTotals, span }: RecordingReading): string {
  const lost = span.missing_s > 0 ? `${duration(span.missing_s)} of ${file} are not known.` : ''
  const clipped = flawTotals.some(({ kind }) => kind === 'saturated')
    ? `In ${file} the range ended below the highest currents: it took more than this says.`
    : ''
  return [lost, clipped].filter((sentence) => sentence !== '').join(' ')
}

function cycleSentence({ difference: { charge } }: Told): string {
  if (charge === null) return 'One of them has too few cycles to compare their charge.'
  if (charge.difference === 0) return 'A cycle takes as much as before.'
  if (!charge.significant)
    return `A cycle takes as much as before: the difference of ${differenceInWords(charge, 'charge')} may be chance.`
  const share = Math.round((100 * Math.abs(charge.difference)) / Math.abs(charge.before))
  const [from, to] = [charge.before, charge.after].map((charge_C) => chargeInWords({ charge_C, u_C: null }))
  return `A cycle takes ${share} % ${charge.difference > 0 ? 'more' : 'less'}: ${to} instead of ${from}.`
}

function statesSentences(comparison: Told): string[] {
  const { difference, before, after } = comparison
  const { states } = difference
  const of = (kind: StateDifference['kind']) => states.filter((each) => each.kind === kind)
  const appeared = of('appeared').map(({ after: k }) => after.states[k ?? 0])
  const vanished = of('vanished').map(({ before: k }) => before.states[k ?? 0])
  const lines = [
    ...appeared.map(
      ({ name, current, dwell }) =>
        `A state appeared: ${name}, ${currentInWords(current)}${dwell === null ? '' : ` for ${duration(dwell.median_s)}`}.`,
    ),
    ...vanished.map(({ name, current }) => `A state vanished: ${name}, ${currentInWords(current)}.`),
  ]
  return [...restSentence(comparison), ...lines]
}

function restSentence({ difference, before, after }: Told): string[] {
  const [was, is] = [before.states, after.states].map((states) => states.find(({ rests }) => rests))
  const rest = difference.states.find(({ before: k }) => k !== null && before.states[k].rests)
  if (was === undefined || is === undefined || !rest?.current?.significant) return []
  return [`At rest it draws ${currentInWords(is.current)} instead of ${currentInWords(was.current)}.`]
}

function outlookSentence(outlook: OutlookPair | null): string {
  if (outlook === null) return ''
  const { differences, before, after, rechargeable, title } = outlook
  if (rechargeable) {
    if (!differences.survival.isReal) return `To the winters of ${title} it makes no difference that shows.`
    const percent = (share: number) => Math.round(100 * share)
    return `Of 100 winters of ${title}, it survives ${percent(after.winters.share)} instead of ${percent(before.winters.share)}.`
  }
  const lives = [after.life.median_days, before.life.median_days].map((days) =>
    days === null ? `more than ${counted(outlook.years, 'year')}` : lifeInWords(days),
  )
  return differences.life_days.isReal
    ? `${title} would live ${lives[0]} instead of ${lives[1]}.`
    : `To the life of ${title} it makes no difference that shows.`
}
