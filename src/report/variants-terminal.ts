/** Variants for a terminal: a line each, then what each does better than the file as written, then the break-even rests. */
import type { BreakEven } from '../decisions/break-even.ts'
import type { Difference } from '../decisions/compare-variants.ts'
import { lifeInWords } from '../outlook/verdict.ts'
import { counted } from '../quantity/counted.ts'
import { formatQuantity } from '../quantity/format.ts'
import { DAYS } from '../sky/calendar.ts'
import { bar } from './bar.ts'
import { forTerminal } from './for-terminal.ts'
import type { Ink } from './terminal.ts'
import type { VariantOutlook, VariantsReport } from './variants.ts'
import { labelled, wrap } from './wrap.ts'

const WIDTH = 78
const NAME = 24

export function variantsToTerminal(report: VariantsReport, ink: Ink): string {
  const sections = [
    `${ink.strong(report.title)}\n${ink.accent(wrap(summaryOf(report), WIDTH))}`,
    sideBySide(report, ink),
    differences(report, ink),
    breakEvenRests(report, ink),
    [
      ink.strong('Verdicts'),
      ...report.variants.map(({ name, outlook }) => labelled(fitted(name), outlook.verdict, NAME, WIDTH)),
    ].join('\n'),
    ink.faint(
      wrap(
        `${counted(report.runs, 'run')} of ${counted(report.years, 'year')} each, seed ${report.seed}. Weather: ${report.weather}. Run k of every variant has the same draws and the same weather, so differences are taken run by run; those whose 95 % interval leaves out zero are real.`,
        WIDTH,
      ),
    ),
  ]
  return forTerminal(`${sections.filter((section) => section !== '').join('\n\n')}\n`)
}

/** In one sentence: which of them keep their aims. */
export function summaryOf({ keepAllAims, variants }: VariantsReport): string {
  if (variants.every(({ outlook }) => outlook.aims.length === 0))
    return `${variants.length} designs side by side; the file states no aims to judge them by.`
  if (keepAllAims.length === 0) return `None of the ${variants.length} designs is shown to keep all its aims.`
  if (keepAllAims.length === variants.length) return `All ${variants.length} designs keep all their aims.`
  const names = keepAllAims.map((name) => `"${name}"`).join(', ')
  const keep = keepAllAims.length === 1 ? 'only this one keeps' : 'these keep'
  return `Of ${variants.length} designs ${keep} all aims: ${names}.`
}

function sideBySide({ variants, rechargeable }: VariantsReport, ink: Ink): string {
  const days = variants.map(({ outlook }) => dayCharge_C(outlook))
  const most = Math.max(...days)
  const head = `  ${'a day takes'.padEnd(NAME + 24)} ${'reports'.padStart(8)}  ${rechargeable ? 'winters of 100' : 'median life'}`
  const rows = variants.map(({ name, outlook }, i) => {
    const charge = formatQuantity(days[i], 'charge', { digits: 3 })
    const reports = Number(outlook.reportsPerDay.mean.toPrecision(3))
    return `  ${fitted(name).padEnd(NAME)} ${bar(days[i] / most, 12)} ${charge.padStart(10)} ${String(reports).padStart(8)}  ${rechargeable ? wintersOf(outlook) : medianOf(outlook)}`
  })
  return [ink.strong('Side by side'), ink.faint(head), ...rows].join('\n')
}

export const dayCharge_C = ({ budget }: VariantOutlook['outlook']): number =>
  budget.reduce((sum, part) => sum + part.charge_C, 0)

export const wintersOf = ({ winters }: VariantOutlook['outlook']): string =>
  `${hundredths(winters.share)} (${hundredths(winters.low)} to ${hundredths(winters.high)})`

const lasts = (days: number | null, years: number) =>
  days === null ? `over ${counted(years, 'year')}` : lifeInWords(days)

const medianOf = ({ life, years }: VariantOutlook['outlook']): string => lasts(life.median_days, years)

export function lifeOf({ life, years }: VariantOutlook['outlook']): string {
  const { p5_days, median_days, p95_days } = life
  if (median_days === null) return lasts(null, years)
  return `${lasts(median_days, years)} (${lasts(p5_days, years)} to ${lasts(p95_days, years)})`
}

const hundredths = (share: number) => Number((100 * share).toFixed(1))

function differences({ variants, rechargeable }: VariantsReport, ink: Ink): string {
  const rows = variants.flatMap(({ name, differences: found }) =>
    found === null ? [] : [labelled(fitted(name), differenceInWords(found, rechargeable), NAME, WIDTH)],
  )
  return [ink.strong(`Against "${variants[0].name}", run by run`), ...rows].join('\n')
}

export function differenceInWords(
  { survival, life_days, reportsPerDay }: NonNullable<VariantOutlook['differences']>,
  rechargeable: boolean,
): string {
  // Without a panel the reports of a run end with its life, which says it already.
  if (!rechargeable) return `${interval(life_days, 1 / DAYS, 2)} years`
  const winters = `${interval(survival, 100, 1)} winters of 100`
  const isSame = Math.max(Math.abs(reportsPerDay.low), Math.abs(reportsPerDay.high)) < 0.005
  return isSame ? `${winters}; as many reports` : `${winters}; ${interval(reportsPerDay, 1, 2)} reports a day`
}

function interval(difference: Difference, factor: number, decimals: number): string {
  const signed = (x: number) => `${x < 0 ? '−' : '+'}${Math.abs(x * factor).toFixed(decimals)}`
  const { mean, low, high, isReal } = difference
  return `${signed(mean)} (${signed(low)} to ${signed(high)}${isReal ? '' : ', no difference shown'})`
}

function breakEvenRests({ breakEvens }: VariantsReport, ink: Ink): string {
  if (breakEvens.length === 0) return ''
  const lines = breakEvens.map((each) => `  ${wrap(breakEvenInWords(each), WIDTH - 2, '  ')}`)
  return [ink.strong('When the deeper sleep pays'), ...lines].join('\n')
}

export function breakEvenInWords({
  deeper,
  lighter,
  rest_s,
  low_s,
  high_s,
  always,
  never,
}: BreakEven): string {
  const pair = `"${deeper}" over "${lighter}"`
  const time = (seconds: number | null) =>
    seconds === null
      ? 'never'
      : seconds === 0
        ? 'any rest'
        : formatQuantity(seconds, 'duration', { digits: 2 })
  if (always === 1) return `${pair}: at any rest, for its wake costs no more.`
  if (rest_s === null || never === 1) return `${pair}: never.`
  const doubtful = never > 0 ? `; in ${Math.max(1, Math.round(100 * never))} draws of 100 never` : ''
  return rest_s === 0
    ? `${pair}: at any rest (90 % of draws: up to ${time(high_s)}${doubtful}).`
    : `${pair}: for rests above ${time(rest_s)} (90 % of draws: ${time(low_s)} to ${time(high_s)}${doubtful}).`
}

const fitted = (name: string) => (name.length > NAME ? `${name.slice(0, NAME - 1)}…` : name)
