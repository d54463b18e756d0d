/** Sizing as one HTML file. */
import type { Sized } from '../decisions/sizing.ts'
import type { Share } from '../outlook/outlook.ts'
import { frontierFigure } from './figure-frontier.ts'
import { escapeHtml, figureSection, pageToHtml, tableOf } from './page.ts'
import type { SizingReport } from './sizing.ts'
import { howItWasFound } from './sizing-terminal.ts'
import {
  charge,
  costOf,
  duration,
  hundredths,
  offGridInWords,
  onPaperInWords,
  power,
  sizingVerdict,
  survivalInWords,
} from './sizing-words.ts'

export function sizingToHtml(report: SizingReport): string {
  const { study, parts, cautions, title, file } = report
  const figure = frontierFigure(report)
  const [cell, panel, interval] = study.confirmed
  const row = (name: string, sized: Sized | null, fresh: Share | null = null) =>
    sized === null
      ? [name, 'none within a factor of ten suffices', '', '', '']
      : [
          name,
          sizeOf(sized, report),
          survivalInWords(sized, report),
          fresh === null ? '' : hundredths(fresh.share),
          offGridInWords(sized),
        ]
  const answers = tableOf(
    ['changed', 'design', 'survives', 'of fresh runs', 'in the trade’s terms'],
    [
      row('nothing', study.asItIs.design),
      row('cell', study.smallestCell, cell),
      ...(report.rechargeable ? [row('panel', study.smallestPanel, panel)] : []),
      ...(report.interval_s === null ? [] : [row('interval', study.shortestInterval, interval)]),
    ],
    true,
  )
  const paper = onPaperInWords(report)
  const combinations = [
    ...(parts?.cheapest == null ? [] : [{ ...parts.cheapest, found: 'suffices' }]),
    ...(parts?.cheaper ?? []).map((each) => ({
      ...each,
      found: each.ruling === 'fails' ? 'not enough' : 'not shown',
    })),
  ]
  return pageToHtml({
    window: `${title}: sizing`,
    kind: 'Sizing of',
    heading: title,
    verdict: sizingVerdict(report),
    sections: [
      `<section><h2>One thing changed, all else as written</h2>${answers}</section>`,
      parts === null
        ? ''
        : `<section><h2>Least ${escapeHtml(parts.objective)}</h2>${tableOf(
            [parts.objective, 'cell', 'panel', 'found', 'survives'],
            combinations.map(({ cost, cell, panel, found, design }) => [
              costOf(cost, parts.dimension),
              cell,
              panel ?? '–',
              found,
              survivalInWords(design, report),
            ]),
          )}</section>`,
      figure === null ? '' : figureSection(figure),
      paper === '' ? '' : `<section><h2>The sum on paper</h2><p>${escapeHtml(paper)}</p></section>`,
      `<section class="care"><h2>Take care</h2><ul>${cautions.map((text) => `<li>${escapeHtml(text)}</li>`).join('')}</ul></section>`,
    ],
    footer: `${howItWasFound(report)} From ${file}.`,
  })
}

function sizeOf({ capacity_C, panel_W, interval_s }: Sized, report: SizingReport): string {
  const every_s = interval_s ?? report.interval_s
  return [
    charge(capacity_C),
    ...(panel_W === null ? [] : [power(panel_W)]),
    ...(every_s === null ? [] : [`every ${duration(every_s)}`]),
  ].join(', ')
}
