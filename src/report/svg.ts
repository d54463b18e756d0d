/** A figure as an SVG string: drawn by Plot into a document of its own, without a browser. */
import * as Plot from '@observablehq/plot'
import { JSDOM } from 'jsdom'

const { document } = new JSDOM('').window

/**
 * Draws `options` and returns one `<svg>` element. Colours are `currentColor` and CSS variables of the page, with
 * fall-backs, so that a figure follows light, dark and print, and still stands alone in a file.
 */
export function drawSvg(options: Plot.PlotOptions, label: string): string {
  const drawn = Plot.plot({
    document,
    style: { background: 'none', fontFamily: 'inherit', fontSize: '12px', overflow: 'visible' },
    ...options,
  } as Plot.PlotOptions)
  const svg = drawn.tagName.toLowerCase() === 'svg' ? drawn : drawn.querySelector('svg')
  if (svg === null) throw new Error('the plot holds no drawing')
  svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  svg.setAttribute('role', 'img')
  svg.setAttribute('aria-label', label)
  // The drawing is one picture with one name; names on its groups mean nothing to a screen reader.
  for (const part of svg.querySelectorAll('[aria-label]')) part.removeAttribute('aria-label')
  for (const style of svg.querySelectorAll('style')) style.remove()
  return svg.outerHTML.replace(/(\d+\.\d{3})\d+/g, '$1')
}

export const INK = {
  line: 'var(--ink, #2d2a26)',
  accent: 'var(--accent, #9a3f1d)',
  wide: 'var(--band-wide, #e3d3bd)',
  narrow: 'var(--band, #c9a882)',
  faint: 'var(--faint, #8a8175)',
}
