/** A forecast as one HTML file. */
import { dateOfDay } from '../outlook/verdict.ts'
import { counted } from '../quantity/counted.ts'
import type { Figure } from './figure.ts'
import { chargeFigure } from './figure-charge.ts'
import { dischargeFigure, lifeFigure } from './figure-life.ts'
import { waveFigure } from './figure-wave.ts'
import { worstWeeksFigure, yearFigure } from './figure-year.ts'
import type { Forecast } from './forecast.ts'
import { escapeHtml, figureSection, pageToHtml, tableOf } from './page.ts'

/** The figures of a forecast, in the order of the page. */
export function figuresOf(forecast: Forecast): Figure[] {
  const { outlook } = forecast
  const light = outlook.rechargeable ? [yearFigure(outlook), worstWeeksFigure(outlook)] : []
  const life = outlook.rechargeable && outlook.causes.length === 0 ? [] : [lifeFigure(outlook)]
  return [
    waveFigure(forecast),
    chargeFigure(forecast),
    ...light,
    ...life,
    ...(outlook.rechargeable ? [] : [dischargeFigure(outlook), yearFigure(outlook)]),
  ]
}

export function forecastToHtml(forecast: Forecast): string {
  const { outlook } = forecast
  return pageToHtml({
    window: `${outlook.title}: outlook`,
    kind: 'Outlook for',
    heading: outlook.title,
    verdict: outlook.verdict,
    sections: [
      aimsSection(forecast),
      replaySection(forecast),
      ...figuresOf(forecast).map(figureSection),
      careSection(forecast),
      assumptionsSection(forecast),
    ],
    footer: `${counted(outlook.runs, 'run')} of ${counted(outlook.years, 'year')}, seed ${outlook.seed}. Weather: ${forecast.weather}. Charge accounts close to ${outlook.imbalance.toExponential(0)} of the charge moved. From ${forecast.file}.`,
  })
}

function aimsSection({ outlook }: Forecast): string {
  if (outlook.aims.length === 0) return ''
  const word = { yes: 'kept', no: 'not kept', 'cannot tell': 'cannot tell' }
  const rows = outlook.aims.map(
    (a) =>
      `<tr><th scope="row">${escapeHtml(a.aim)}</th><td class="answer">${word[a.holds]}</td><td>${escapeHtml(a.why)}</td></tr>`,
  )
  return `<section><h2>Aims</h2><table>${rows.join('')}</table></section>`
}

function replaySection({ replay }: Forecast): string {
  if (replay === null) return ''
  const fate = replay.alive ? 'It survives' : `It is down for ${replay.downHours.toFixed(0)} hours of`
  return `<section><h2>The weather file's own year</h2><p>${fate} the days of ${escapeHtml(replay.title)} in their own order; the least charge is ${Math.round(100 * replay.lowestState)} % on ${dateOfDay(replay.lowestDay)}. One real year is one draw of many.</p></section>`
}

function careSection({ warnings, cautions }: Forecast): string {
  if (warnings.length + cautions.length === 0) return ''
  const items = [...warnings.map((w) => `${w.message} ${w.cure}`), ...cautions]
  return `<section class="care"><h2>Take care</h2><ul>${items.map((i) => `<li>${escapeHtml(i)}</li>`).join('')}</ul></section>`
}

function assumptionsSection({ assumptions }: Forecast): string {
  const table = tableOf(
    ['where', 'taken as', 'source'],
    assumptions.map(({ path, text, source }) => [path, text, source]),
    true,
  )
  return `<section><h2>What it rests on</h2><p>What the file left open, and where the numbers come from.</p>
${table}</section>`
}
