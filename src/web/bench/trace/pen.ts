/** What the trace is drawn with: a canvas while it moves, an SVG where it is taken away; the drawing is one and the same. */
export interface Ink {
  readonly paper: string
  readonly ink: string
  readonly faint: string
  readonly rule: string
  readonly accent: string
  readonly accentWash: string
  readonly band: string
  readonly bandWide: string
  /** A family, as in CSS. */
  readonly words: string
}

export interface TextStyle {
  readonly fill: string
  readonly align: 'left' | 'center' | 'right'
  readonly size: number
  readonly italic?: boolean
}

/** In CSS pixels from the upper left corner. */
export interface Pen {
  rect(x: number, y: number, width: number, height: number, fill: string): void
  line(
    x1: number,
    y1: number,
    x2: number,
    y2: number,
    stroke: string,
    width: number,
    isDashed?: boolean,
  ): void
  /** `y` is that of the base line. */
  text(text: string, x: number, y: number, style: TextStyle): void
  /** Bars side by side, each `width` wide; none where its top is NaN. */
  bars(x: number, width: number, tops: Float64Array, bottoms: Float64Array, count: number, fill: string): void
  /** Points side by side joined; broken where NaN. */
  curve(
    x: number,
    width: number,
    heights: Float64Array,
    count: number,
    stroke: string,
    thickness: number,
  ): void
}

const INKS = {
  paper: '--paper',
  ink: '--ink',
  faint: '--faint',
  rule: '--rule',
  accent: '--accent',
  accentWash: '--accent-wash',
  band: '--band',
  bandWide: '--band-wide',
  words: '--words',
} as const satisfies Record<keyof Ink, string>

/** The page's colours, as they are at this moment. */
export function inkOf(element: Element): Ink {
  const style = getComputedStyle(element)
  return Object.fromEntries(
    Object.entries(INKS).map(([name, variable]) => [name, style.getPropertyValue(variable).trim()]),
  ) as unknown as Ink
}

/** Between two colours written as #rrggbb. */
export function mixed(from: string, to: string, share: number): string {
  const [a, b] = [from, to].map((colour) => Number.parseInt(colour.slice(1), 16))
  const part = (shift: number) => {
    const [x, y] = [a, b].map((colour) => (colour >> shift) & 255)
    return Math.round(x + share * (y - x))
  }
  return `#${[16, 8, 0].map((shift) => part(shift).toString(16).padStart(2, '0')).join('')}`
}
