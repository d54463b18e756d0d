/** Counts of samples as shades: a picture, and what its columns say. Pure but for the canvas. */
import type { Density } from '../../api/bench.ts'

/** Pixels of a picture as an address, one for each count; darker where more samples lie, by the logarithm. */
export function densityPicture({ counts, columns, rows }: Density, colour: string): string {
  const canvas = document.createElement('canvas')
  canvas.width = columns
  canvas.height = rows
  const context = canvas.getContext('2d')
  if (context === null) return ''
  const image = context.createImageData(columns, rows)
  const most = counts.reduce((a, b) => Math.max(a, b), 1)
  const red = Number.parseInt(colour.slice(1), 16)
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const count = counts[row * columns + column]
      if (count === 0) continue
      const at = 4 * ((rows - 1 - row) * columns + column)
      image.data.set([(red >> 16) & 255, (red >> 8) & 255, red & 255, shadeOf(count, most)], at)
    }
  context.putImageData(image, 0, 0)
  return canvas.toDataURL()
}

/** A single sample must be seen. */
const FAINTEST = 70

const shadeOf = (count: number, most: number): number =>
  most === 1 ? 255 : FAINTEST + ((255 - FAINTEST) * Math.log(count)) / Math.log(most)

export interface DensityColumn {
  readonly from_s: number
  readonly p10_A: number
  readonly median_A: number
  readonly p90_A: number
}

/** Of each column that has samples; a current is that of the middle of its row. */
export function densityColumns({
  counts,
  columns,
  rows,
  duration_s,
  lowest_A,
  highest_A,
}: Density): DensityColumn[] {
  const middle = (row: number) => lowest_A * (highest_A / lowest_A) ** ((row + 0.5) / rows)
  return Array.from({ length: columns }, (_, column) => {
    let all = 0
    for (let row = 0; row < rows; row++) all += counts[row * columns + column]
    const at = (share: number) => {
      let left = share * all
      for (let row = 0; row < rows; row++) {
        left -= counts[row * columns + column]
        if (left <= 0 && all > 0) return middle(row)
      }
      return Number.NaN
    }
    return { from_s: (column * duration_s) / columns, p10_A: at(0.1), median_A: at(0.5), p90_A: at(0.9) }
  }).filter(({ median_A }) => !Number.isNaN(median_A))
}
