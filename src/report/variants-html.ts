/** Variants side by side as one HTML file. */
import { counted } from '../quantity/counted.ts'
import { variantFigures } from './figure-variants.ts'
import { escapeHtml, figureSection, pageToHtml, tableOf } from './page.ts'
import type { VariantsReport } from './variants.ts'
import { breakEvenInWords, differenceInWords, summaryOf } from './variants-terminal.ts'

export function variantsToHtml(report: VariantsReport): string {
  const { title, variants, rechargeable, breakEvens, runs, years, seed, weather, file } = report
  const verdicts = tableOf(
    ['variant', 'verdict'],
    variants.map(({ name, outlook }) => [name, outlook.verdict]),
    true,
  )
  const differences = tableOf(
    ['variant', `against "${variants[0].name}", with 95 % intervals`],
    variants.flatMap(({ name, differences: found }) =>
      found === null ? [] : [[name, differenceInWords(found, rechargeable)]],
    ),
    true,
  )
  const rests = breakEvens.map((each) => `<li>${escapeHtml(breakEvenInWords(each))}</li>`).join('')
  return pageToHtml({
    window: `${title}: variants`,
    kind: 'Variants of',
    heading: title,
    verdict: summaryOf(report),
    sections: [
      ...variantFigures(report).map(figureSection),
      `<section><h2>Verdicts</h2>${verdicts}</section>`,
      `<section><h2>Differences, run by run</h2>${differences}</section>`,
      rests === '' ? '' : `<section><h2>When the deeper sleep pays</h2><ul>${rests}</ul></section>`,
    ],
    footer: `${counted(runs, 'run')} of ${counted(years, 'year')} each, seed ${seed}; run k of every variant has the same draws and the same weather. Weather: ${weather}. From ${file}.`,
  })
}
