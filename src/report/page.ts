/** The frame of every report: one HTML file, no script, no request to any network, light and dark, printable. */
import type { Figure } from './figure.ts'
import { PAGE_STYLE } from './page-style.ts'

export interface Page {
  /** What stands in the window's title. */
  readonly window: string
  /** The small line above the heading. */
  readonly kind: string
  readonly heading: string
  readonly verdict: string
  /** HTML; those that are empty are left out. */
  readonly sections: readonly string[]
  /** Plain text. */
  readonly footer: string
}

export function pageToHtml({ window, kind, heading, verdict, sections, footer }: Page): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(window)}</title>
<style>${PAGE_STYLE}</style>
</head>
<body>
<header>
<p class="kind">${escapeHtml(kind)}</p>
<h1>${escapeHtml(heading)}</h1>
<p class="verdict">${escapeHtml(verdict)}</p>
</header>
<main>
${sections.filter((section) => section !== '').join('\n')}
</main>
<footer>
<p>${escapeHtml(footer)}</p>
</footer>
</body>
</html>
`
}

export function figureSection(figure: Figure): string {
  return `<section id="${figure.id}">
<h2>${escapeHtml(figure.title)}</h2>
<figure><div class="wide" role="group" tabindex="0" aria-label="${escapeHtml(figure.title)}, drawing">${figure.svg}</div><figcaption>${escapeHtml(figure.caption)}</figcaption></figure>
<details><summary>The numbers</summary>${tableOf(figure.head, figure.rows)}</details>
</section>`
}

/** A table that scrolls by itself where the page is narrow. */
export function tableOf(
  head: readonly string[],
  rows: readonly (readonly (string | number)[])[],
  rowHeads = false,
): string {
  const heads = head.map((h) => `<th scope="col">${escapeHtml(h)}</th>`).join('')
  const cell = (text: string | number, k: number) =>
    rowHeads && k === 0
      ? `<th scope="row">${escapeHtml(String(text))}</th>`
      : `<td>${escapeHtml(String(text))}</td>`
  const body = rows.map((row) => `<tr>${row.map(cell).join('')}</tr>`).join('')
  return `<div class="wide" role="group" tabindex="0" aria-label="Table"><table><thead><tr>${heads}</tr></thead><tbody>${body}</tbody></table></div>`
}

export const escapeHtml = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')
