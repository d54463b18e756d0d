/** What sizing found, in sentences that terminal and page share. */
import type { Sized } from '../decisions/sizing.ts'
import { formatQuantity } from '../quantity/format.ts'
import type { SizingReport } from './sizing.ts'

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
]

export const charge = (charge_C: number): string => formatQuantity(charge_C, 'charge', { digits: 3 })
export const power = (power_W: number): string => formatQuantity(power_W, 'power', { digits: 3 })
export const duration = (time_s: number): string => formatQuantity(time_s, 'duration', { digits: 3 })
export const hundredths = (share: number): string => String(Number((100 * share).toFixed(1)))

/** `winters of 100`, or `lives of 100` where no light charges the cell. */
export const trials = ({ rechargeable }: SizingReport): string =>
  rechargeable ? 'winters of 100' : 'lives of 100'

export function survivalInWords({ survival, runs }: Sized, report: SizingReport): string {
  const { share, low, high } = survival
  return `${hundredths(share)} ${trials(report)} (95 % interval ${hundredths(low)} to ${hundredths(high)}, ${runs} runs)`
}

/** The verdict of `size` in one or two sentences. */
export function sizingVerdict(report: SizingReport): string {
  const { study, wanted } = report
  const aim = `the ${hundredths(wanted)} ${trials(report)} that are wanted`
  const own = {
    passes: `As it is, it survives ${aim}.`,
    fails: `As it is, it does not survive ${aim}.`,
    undecided: `As it is, it is not shown to survive ${aim}.`,
  }[study.asItIs.ruling]
  const { smallestCell, smallestPanel, shortestInterval } = study
  const answers = [
    ...(smallestCell === null ? [] : [`a cell of ${charge(smallestCell.capacity_C)}`]),
    ...(smallestPanel === null ? [] : [`a panel of ${power(smallestPanel.panel_W ?? 0)}`]),
    ...(shortestInterval === null ? [] : [`an interval of ${duration(shortestInterval.interval_s ?? 0)}`]),
  ]
  const parts = partsSentence(report)
  if (answers.length === 0 && parts === '')
    return `${own} No cell, panel or interval within a factor of ten mends that alone.`
  const list = answers.length === 0 ? '' : ` With all else as it is, ${listOf(answers, 'or')} will do.`
  return `${own}${list}${parts}`
}

export const listOf = (items: readonly string[], last: 'and' | 'or'): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`

function partsSentence({ parts }: SizingReport): string {
  if (parts === null) return ''
  if (parts.cheapest === null) return ` No combination of the parts listed suffices.`
  const { cell, panel, cost } = parts.cheapest
  return ` Least ${parts.objective} of the parts listed: ${cell}${panel === null ? '' : ` with ${panel}`} (${costOf(cost, parts.dimension)}).`
}

export function costOf(cost: number, dimension: 'mass' | 'length' | 'count'): string {
  return dimension === 'count'
    ? String(Number(cost.toFixed(2)))
    : formatQuantity(cost, dimension, { digits: 3 })
}

/** Autonomy and array-to-load ratio of a design, as the off-grid trade states them. */
export function offGridInWords({ offGrid }: Sized): string {
  const { autonomy_days, array } = offGrid
  const days = `${Number(autonomy_days.toPrecision(3))} days of autonomy`
  return array === null
    ? days
    : `${days}, array over load ${Number(array.toLoad.toPrecision(2))} in ${MONTHS[array.worstMonth]}`
}

/** How the sum on paper would have come out; empty where there is no panel. */
export function onPaperInWords(report: SizingReport): string {
  const { onPaper } = report.study
  if (onPaper === null) return ''
  const { design, ruling } = onPaper
  const said = `The worst-month sum (array over load 1.3, ten days of autonomy) would have picked ${charge(design.capacity_C)} with ${power(design.panel_W ?? 0)}`
  const came = {
    passes: 'simulated, that suffices',
    fails: 'simulated, that is not enough',
    undecided: 'simulated, that is not shown to be enough',
  }[ruling]
  return `${said}; ${came}: ${survivalInWords(design, report)}.`
}
