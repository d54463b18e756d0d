/**
 * The colours of the pages: contrast by WCAG 2.2 (1.4.3, 1.4.11; relative luminance as defined there), and whether the two
 * inks stay apart for colour-blind readers, by the simulation of Viénot, Brettel & Mollon (1999) for protanopes and
 * deuteranopes, matrices from memory. The stated figures of docs/workbench.md are these.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const css = readFileSync('src/web/look/paper.css', 'utf8')
const THEMES = { light: palette(0), dark: palette(1), print: palette(2) }

function palette(nth: number): Record<string, string> {
  const block = [...css.matchAll(/:root \{([^}]*)\}/g)][nth][1]
  const own = Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{3,6});/g)].map(([, name, value]) => [name, value]),
  )
  return own
}

type Rgb = readonly [number, number, number]

function linear(hex: string): Rgb {
  const full = hex.length === 4 ? [...hex.slice(1)].map((c) => c + c).join('') : hex.slice(1)
  const channel = (i: number) => {
    const c = Number.parseInt(full.slice(2 * i, 2 * i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }
  return [channel(0), channel(1), channel(2)]
}

const luminance = ([r, g, b]: Rgb) => 0.2126 * r + 0.7152 * g + 0.0722 * b
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(linear(a)), luminance(linear(b))].sort((x, y) => x - y)
  return (high + 0.05) / (low + 0.05)
}

/** Viénot et al. 1999, in linear RGB. */
const SEEN = {
  protanope: [
    [0.1124, 0.8876, 0],
    [0.1124, 0.8876, 0],
    [0.004, -0.004, 1],
  ],
  deuteranope: [
    [0.2928, 0.7072, 0],
    [0.2928, 0.7072, 0],
    [-0.0223, 0.0223, 1],
  ],
} as const

function seenBy(who: keyof typeof SEEN, hex: string): Rgb {
  const rgb = linear(hex)
  const row = (i: number) => SEEN[who][i].reduce<number>((sum, weight, k) => sum + weight * rgb[k], 0)
  return [row(0), row(1), row(2)]
}

/** CIE 1976 L*a*b* difference, D65. */
function difference(a: Rgb, b: Rgb): number {
  const lab = ([r, g, bl]: Rgb) => {
    const f = (t: number) => (t > 0.008856 ? Math.cbrt(t) : 7.787 * t + 16 / 116)
    const x = f((0.4124 * r + 0.3576 * g + 0.1805 * bl) / 0.9505)
    const y = f(0.2126 * r + 0.7152 * g + 0.0722 * bl)
    const z = f((0.0193 * r + 0.1192 * g + 0.9505 * bl) / 1.089)
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)]
  }
  const [p, q] = [lab(a), lab(b)]
  return Math.hypot(...p.map((value, i) => value - q[i]))
}

describe.each(Object.entries(THEMES))('in %s', (_, colours) => {
  test.each(['ink', 'faint', 'accent', 'cool'])('writing in %s can be read on paper', (name) => {
    expect(contrast(colours[name], colours.paper)).toBeGreaterThanOrEqual(4.5)
  })

  test('ink can be read on every wash', () => {
    for (const wash of ['accent-wash', 'band-wide', 'cool-wash'])
      expect(contrast(colours.ink, colours[wash])).toBeGreaterThanOrEqual(4.5)
  })

  test.each(['protanope', 'deuteranope'] as const)('accent and cool stay apart for a %s', (who) => {
    // A difference of 20 is seen at a glance (common practice: 2 is just noticeable).
    expect(difference(seenBy(who, colours.accent), seenBy(who, colours.cool))).toBeGreaterThan(20)
  })
})

test('the measure itself: black on white is 21 to 1 (WCAG 2.2), and grey #767676 on white the known 4.54', () => {
  expect(contrast('#000', '#fff')).toBeCloseTo(21, 5)
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
})

test('docs/workbench.md states the contrast that is measured', () => {
  const docs = readFileSync('docs/workbench.md', 'utf8')
  for (const [theme, colours] of Object.entries(THEMES))
    expect(docs).toContain(
      `| ${theme} | ${['ink', 'faint', 'accent', 'cool'].map((name) => contrast(colours[name], colours.paper).toFixed(1)).join(' | ')} |`,
    )
})
