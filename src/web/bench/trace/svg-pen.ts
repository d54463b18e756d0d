import type { Pen, TextStyle } from './pen.ts'

export interface SvgPen extends Pen {
  /** The drawing, standing alone. */
  readonly finish: () => string
}

const ANCHORS = { left: 'start', center: 'middle', right: 'end' } as const

export function svgPen(width: number, height: number, words: string, paper: string, label: string): SvgPen {
  const parts: string[] = []
  const put = (name: string, attributes: Readonly<Record<string, string | number>>, inner = '') => {
    const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(String(value))}"`)
    parts.push(`<${name}${written.join('')}${inner === '' ? '/>' : `>${inner}</${name}>`}`)
  }
  const at = (x: number) => Number(x.toFixed(2))
  put('rect', { width: '100%', height: '100%', fill: paper })
  return {
    rect(x, y, wide, high, fill) {
      put('rect', { x: at(x), y: at(y), width: at(wide), height: at(high), fill })
    },
    line(x1, y1, x2, y2, stroke, thickness, isDashed = false) {
      put('line', {
        x1: at(x1),
        y1: at(y1),
        x2: at(x2),
        y2: at(y2),
        stroke,
        'stroke-width': thickness,
        ...(isDashed ? { 'stroke-dasharray': '5 4' } : {}),
      })
    },
    text(text, x, y, { fill, align, size, italic = false }: TextStyle) {
      const style = italic ? { 'font-style': 'italic' } : {}
      put(
        'text',
        { x: at(x), y: at(y), fill, 'font-size': size, 'text-anchor': ANCHORS[align], ...style },
        escaped(text),
      )
    },
    bars(x, wide, tops, bottoms, count, fill) {
      let path = ''
      for (let k = 0; k < count; k++)
        if (!Number.isNaN(tops[k])) path += `M${at(x + (k + 0.5) * wide)} ${at(tops[k])}V${at(bottoms[k])}`
      put('path', { d: path, stroke: fill, 'stroke-width': at(wide), fill: 'none' })
    },
    curve(x, wide, heights, count, stroke, thickness) {
      let path = ''
      for (let k = 0; k < count; k++) {
        if (Number.isNaN(heights[k])) continue
        const isOn = k > 0 && !Number.isNaN(heights[k - 1])
        path += `${isOn ? 'L' : 'M'}${at(x + (k + 0.5) * wide)} ${at(heights[k])}`
      }
      put('path', { d: path, stroke, 'stroke-width': thickness, fill: 'none', 'stroke-linejoin': 'round' })
    },
    finish: () =>
      `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="${escaped(words)}" role="img" aria-label="${escaped(label)}">${parts.join('')}</svg>`,
  }
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;')
