/** Small drawn bars for the terminal: eighths of a character, so that a column of them can be compared by eye. */

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉']

/** A bar for `share` 0..1 of `width` characters, padded with spaces to that width. */
export function bar(share: number, width: number): string {
  const eighths = Math.round(Math.min(Math.max(share, 0), 1) * width * 8)
  const text = '█'.repeat(Math.floor(eighths / 8)) + EIGHTHS[eighths % 8]
  return text + ' '.repeat(width - [...text].length)
}

/**
 * A band on a scale of 0..1 over `width` characters: `░` between the outer values, `▒` between the inner, `█` at the
 * middle. Values in rising order.
 */
export function band(values: readonly [number, number, number, number, number], width: number): string {
  const place = values.map((v) => Math.min(Math.max(Math.round(v * (width - 1)), 0), width - 1))
  return Array.from({ length: width }, (_, i) => {
    if (i === place[2]) return '█'
    if (i >= place[1] && i <= place[3]) return '▒'
    return i >= place[0] && i <= place[4] ? '░' : ' '
  }).join('')
}
