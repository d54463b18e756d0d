/** A forecast as one HTML file: no script, no request to any network, light and dark by the reader's choice, printable. */
import { dateOfDay } from '../outlook/verdict.ts'
import type { Figure } from './figure.ts'
import { chargeFigure } from './figure-charge.ts'
import { dischargeFigure, lifeFigure } from './figure-life.ts'
import { waveFigure } from './figure-wave.ts'
import { worstWeeksFigure, yearFigure } from './figure-year.ts'
import type { Forecast } from './forecast.ts'
import { PAGE_STYLE } from './page-style.ts'

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
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(outlook.title)}: outlook</title>
<style>${PAGE_STYLE}</style>
</head>
<body>
<header>
<p class="kind">Outlook for</p>
<h1>${escapeHtml(outlook.title)}</h1>
<p class="verdict">${escapeHtml(outlook.verdict)}</p>
</header>
<main>
${aimsSection(forecast)}
${replaySection(forecast)}
${figuresOf(forecast).map(figureSection).join('\n')}
${careSection(forecast)}
${assumptionsSection(forecast)}
</main>
<footer>
<p>${outlook.runs} runs of ${outlook.years} years, seed ${outlook.seed}. Weather: ${escapeHtml(forecast.weather)}. Charge accounts close to ${outlook.imbalance.toExponential(0)} of the charge moved. From ${escapeHtml(forecast.file)}.</p>
</footer>
</body>
</html>
`
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

function figureSection(figure: Figure): string {
  const head = figure.head.map((h) => `<th scope="col">${escapeHtml(h)}</th>`).join('')
  const rows = figure.rows
    .map((r) => `<tr>${r.map((c) => `<td>${escapeHtml(String(c))}</td>`).join('')}</tr>`)
    .join('')
  return `<section id="${figure.id}">
<h2>${escapeHtml(figure.title)}</h2>
<figure><div class="wide" role="group" tabindex="0" aria-label="${escapeHtml(figure.title)}, drawing">${figure.svg}</div><figcaption>${escapeHtml(figure.caption)}</figcaption></figure>
<details><summary>The numbers</summary><div class="wide" role="group" tabindex="0" aria-label="Table"><table><thead><tr>${head}</tr></thead><tbody>${rows}</tbody></table></div></details>
</section>`
}

function careSection({ warnings, cautions }: Forecast): string {
  if (warnings.length + cautions.length === 0) return ''
  const items = [...warnings.map((w) => `${w.message} ${w.cure}`), ...cautions]
  return `<section class="care"><h2>Take care</h2><ul>${items.map((i) => `<li>${escapeHtml(i)}</li>`).join('')}</ul></section>`
}

function assumptionsSection({ assumptions }: Forecast): string {
  const rows = assumptions.map(
    (a) =>
      `<tr><th scope="row">${escapeHtml(a.path)}</th><td>${escapeHtml(a.text)}</td><td>${escapeHtml(a.source)}</td></tr>`,
  )
  return `<section><h2>What it rests on</h2><p>What the file left open, and where the numbers come from.</p>
<div class="wide" role="group" tabindex="0" aria-label="Table"><table><thead><tr><th scope="col">where</th><th scope="col">taken as</th><th scope="col">source</th></tr></thead><tbody>${rows.join('')}</tbody></table></div></section>`
}

const escapeHtml = (text: string) =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')
