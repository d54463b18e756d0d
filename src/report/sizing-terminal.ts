/** Sizing for a terminal: the answers, the frontier as tables, the sum on paper; 80 columns. */
import type { Sized } from '../decisions/sizing.ts'
import { counted } from '../quantity/counted.ts'
import { forTerminal } from './for-terminal.ts'
import type { SizingReport } from './sizing.ts'
import {
  charge,
  costOf,
  duration,
  hundredths,
  listOf,
  offGridInWords,
  onPaperInWords,
  power,
  sizingVerdict,
  survivalInWords,
  trials,
} from './sizing-words.ts'
import type { Ink } from './terminal.ts'
import { labelled, wrap } from './wrap.ts'

const WIDTH = 78
const NAME = 18

export function sizingToTerminal(report: SizingReport, ink: Ink): string {
  const sections = [
    `${ink.strong(report.title)}\n${ink.accent(wrap(sizingVerdict(report), WIDTH))}`,
    answers(report, ink),
    parts(report, ink),
    frontier(report, ink),
    onPaper(report, ink),
    [ink.strong('Take care'), ...report.cautions.map((text) => labelled('⚠', text, 1, WIDTH))].join('\n'),
    ink.faint(wrap(howItWasFound(report), WIDTH)),
  ]
  return forTerminal(`${sections.filter((section) => section !== '').join('\n\n')}\n`)
}

export const howItWasFound = (report: SizingReport): string =>
  `Wanted: ${hundredths(report.wanted)} ${trials(report)}${report.rechargeable ? `, judged over ${yearsOf(report)}` : ` to last ${yearsOf(report)}`}. A design is taken when that is shown with 95 % confidence${report.rechargeable ? '; all winters of one run count as one trial' : ''}. Sizes are preferred numbers (R20)${askedInWords(report)}. Seed ${report.seed}. Weather: ${report.weather}. "Fresh runs" played no part in the choice.`

const yearsOf = ({ years }: SizingReport) => counted(years, 'year')

function askedInWords({ frontier: { asked } }: SizingReport): string {
  return asked.length === 0 ? '' : `; the ${listOf(asked, 'and')} of the frontier are those asked for`
}

function answers(report: SizingReport, ink: Ink): string {
  const { study, rechargeable, interval_s } = report
  const [cell, panel, interval] = study.confirmed
  const fresh = (share: (typeof study.confirmed)[number]) =>
    share === null
      ? ''
      : `; fresh runs ${hundredths(share.share)} (${hundredths(share.low)} to ${hundredths(share.high)})`
  const row = (name: string, sized: Sized | null, size: (sized: Sized) => string, confirmed: string) =>
    labelled(
      name,
      sized === null
        ? 'none within a factor of ten suffices'
        : `${size(sized)}: ${survivalInWords(sized, report)}${confirmed}; ${offGridInWords(sized)}`,
      NAME,
      WIDTH,
    )
  const rows = [
    row(
      'As written',
      study.asItIs.design,
      ({ capacity_C, panel_W }) =>
        [charge(capacity_C), ...(panel_W === null ? [] : [power(panel_W)])].join(' with '),
      '',
    ),
    row('Smallest cell', study.smallestCell, ({ capacity_C }) => charge(capacity_C), fresh(cell)),
    ...(rechargeable
      ? [row('Smallest panel', study.smallestPanel, ({ panel_W }) => power(panel_W ?? 0), fresh(panel))]
      : []),
    ...(interval_s === null
      ? []
      : [
          row(
            'Shortest interval',
            study.shortestInterval,
            ({ interval_s: s, reportsPerDay }) =>
              `${duration(s ?? 0)} (${Number(reportsPerDay.toPrecision(3))} reports a day)`,
            fresh(interval),
          ),
        ]),
  ]
  return [ink.strong('One thing changed, all else as written'), ...rows].join('\n')
}

function parts(report: SizingReport, ink: Ink): string {
  const { parts: found } = report
  if (found === null) return ''
  const name = (cell: string, panel: string | null) => (panel === null ? cell : `${cell} + ${panel}`)
  const why = { passes: '', fails: 'not enough', undecided: 'not shown to be enough' }
  const rows = [
    ...(found.cheapest === null
      ? ['  No combination suffices.']
      : [
          labelled(
            costOf(found.cheapest.cost, found.dimension),
            `${name(found.cheapest.cell, found.cheapest.panel)}: ${survivalInWords(found.cheapest.design, report)}; ${offGridInWords(found.cheapest.design)}`,
            8,
            WIDTH,
          ),
        ]),
    ...found.cheaper.map(({ cell, panel, cost, ruling, design }) =>
      ink.faint(
        labelled(
          costOf(cost, found.dimension),
          `${name(cell, panel)}: ${why[ruling]}, ${hundredths(design.survival.share)} ${trials(report)}`,
          8,
          WIDTH,
        ),
      ),
    ),
    ...found.unsuited.map(({ cell, why: reason }) =>
      ink.faint(labelled('–', `${cell}: ${reason}`, 8, WIDTH)),
    ),
  ]
  return [ink.strong(`Least ${found.objective} of ${found.combinations} combinations`), ...rows].join('\n')
}

/** One row an interval, one column a cell: the smallest panel that suffices. */
function frontier({ frontier: axes, study, rechargeable }: SizingReport, ink: Ink): string {
  const { smallest, reversals } = study.frontier
  const mAh = (capacity_C: number) => String(Number((capacity_C / 3.6).toPrecision(4)))
  const number = (sized: Sized | null) =>
    sized === null
      ? '–'
      : sized.panel_W === null
        ? '✓'
        : String(Number((1000 * sized.panel_W).toPrecision(4)))
  const title = rechargeable
    ? 'Smallest panel in mW for a cell in mAh (across) and an interval (down)'
    : 'Cells in mAh (across) that suffice for an interval (down)'
  const table = [axes.capacities_C.map(mAh), ...smallest.map((row) => row.map(number))]
  const names = [
    '',
    ...axes.intervals_s.map((interval_s) => (interval_s === null ? '' : duration(interval_s))),
  ]
  const nameWidth = Math.max(6, ...names.map(({ length }) => length))
  const cellWidth = Math.max(6, ...table.flat().map(({ length }) => length + 1))
  const across = Math.max(1, Math.floor((WIDTH - nameWidth) / cellWidth))
  const lines: string[] = []
  for (let from = 0; from < axes.capacities_C.length; from += across)
    for (const [i, row] of table.entries()) {
      const cells = row.slice(from, from + across).map((text) => text.padStart(cellWidth))
      const line = `  ${names[i].padEnd(nameWidth)}${cells.join('')}`
      lines.push(i === 0 ? ink.faint(line) : line)
    }
  const remark =
    reversals === 0
      ? []
      : [
          ink.faint(
            wrap(
              `  In ${reversals} places a larger cell needs a larger panel: what it loses by itself has to be charged too.`,
              WIDTH,
            ),
          ),
        ]
  return [
    ink.strong(title),
    ...lines,
    ink.faint(
      `  – none of those tried suffices${rechargeable ? `; nothing below ${power(Math.min(...axes.powers_W))} was tried` : ''}`,
    ),
    ...remark,
  ].join('\n')
}

function onPaper(report: SizingReport, ink: Ink): string {
  const words = onPaperInWords(report)
  return words === '' ? '' : [ink.strong('The sum on paper'), `  ${wrap(words, WIDTH - 2, '  ')}`].join('\n')
}
