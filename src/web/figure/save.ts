/** A figure taken away: its drawing as an SVG that stands alone, its numbers as CSV (RFC 4180). */
import type { FigureTable } from './figure-table.ts'

/** What a drawing takes from the page's style sheet. */
const STYLES = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-opacity',
  'opacity',
  'font-family',
  'font-size',
  'font-style',
  'font-weight',
  'text-anchor',
] as const

export function saveSvg(svg: SVGSVGElement | null, name: string): void {
  if (svg !== null) saveAs(`${name}.svg`, standingAlone(svg), 'image/svg+xml')
}

/** A copy with the styles of the page written into each part, and the page's paper behind it. */
export function standingAlone(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement
  const parts = [svg, ...svg.querySelectorAll('*')]
  for (const [i, part] of [copy, ...copy.querySelectorAll('*')].entries()) {
    const style = getComputedStyle(parts[i])
    for (const name of STYLES) part.setAttribute(name, style.getPropertyValue(name))
    for (const name of ['class', 'style', 'tabindex', 'role']) part.removeAttribute(name)
  }
  const { width, height } = svg.getBoundingClientRect()
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  copy.setAttribute('width', String(width))
  copy.setAttribute('height', String(height))
  const paper = document.createElementNS('http://www.w3.org/2000/svg', 'rect')
  for (const [key, value] of Object.entries({ width: '100%', height: '100%' })) paper.setAttribute(key, value)
  paper.setAttribute('fill', getComputedStyle(document.body).backgroundColor)
  copy.prepend(paper)
  return new XMLSerializer().serializeToString(copy)
}

export function saveCsv({ head, rows }: FigureTable, name: string): void {
  saveAs(`${name}.csv`, csvOf({ head, rows }), 'text/csv')
}

export function csvOf({ head, rows }: FigureTable): string {
  const cell = (value: string | number) => {
    const text = String(value)
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  return `${[head, ...rows].map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`
}

export function saveAs(name: string, content: BlobPart, type: string): void {
  const address = URL.createObjectURL(new Blob([content], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
