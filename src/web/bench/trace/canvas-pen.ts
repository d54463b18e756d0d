import type { Pen, TextStyle } from './pen.ts'

/** Everything is drawn in CSS pixels; what is wiped first is the whole canvas. */
export function canvasPen(canvas: HTMLCanvasElement, words: string): Pen {
  const context = canvas.getContext('2d')
  if (context === null) throw new Error('this browser draws on no canvas')
  const dense = devicePixelRatio
  context.setTransform(1, 0, 0, 1, 0, 0)
  context.clearRect(0, 0, canvas.width, canvas.height)
  context.setTransform(dense, 0, 0, dense, 0, 0)
  return {
    rect(x, y, width, height, fill) {
      context.fillStyle = fill
      context.fillRect(x, y, width, height)
    },
    line(x1, y1, x2, y2, stroke, width, isDashed = false) {
      context.strokeStyle = stroke
      context.lineWidth = width
      context.setLineDash(isDashed ? [5, 4] : [])
      context.beginPath()
      context.moveTo(x1, y1)
      context.lineTo(x2, y2)
      context.stroke()
    },
    text(text, x, y, { fill, align, size, italic = false }: TextStyle) {
      context.font = `${italic ? 'italic ' : ''}${size}px ${words}`
      context.fillStyle = fill
      context.textAlign = align
      context.fillText(text, x, y)
    },
    bars(x, width, tops, bottoms, count, fill) {
      context.fillStyle = fill
      for (let k = 0; k < count; k++)
        if (!Number.isNaN(tops[k])) context.fillRect(x + k * width, tops[k], width, bottoms[k] - tops[k])
    },
    curve(x, width, heights, count, stroke, thickness) {
      context.strokeStyle = stroke
      context.lineWidth = thickness
      context.lineJoin = 'round'
      context.setLineDash([])
      context.beginPath()
      for (let k = 0, isOn = false; k < count; k++) {
        const height = heights[k]
        if (Number.isNaN(height)) isOn = false
        else if (isOn) context.lineTo(x + (k + 0.5) * width, height)
        else {
          context.moveTo(x + (k + 0.5) * width, height)
          isOn = true
        }
      }
      context.stroke()
    },
  }
}
