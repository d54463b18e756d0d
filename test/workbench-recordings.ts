/** Recordings that the tests of the bench share, and what they look for on its page. */
import type { Page } from 'playwright-core'
import { makeUp } from '../src/recording/made-up.ts'
import { planOfBuild } from './adopt-check-recordings.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

export const GAUGE = 'avalanche-snow-depth.outpost.yaml'
export const BUILD_41 = 'recordings/snow-depth-build-41.csv.gz'
export const BUILD_42 = 'recordings/snow-depth-build-42.csv.gz'

/** Ten million samples: 5 µA, and one sample of 0.4 A. */
export const LONG = { name: 'long.f32', samples: 10_000_000, rate_Hz: 100_000, spike: 6_543_210 }
const long = new Float32Array(LONG.samples).fill(5e-6)
long[LONG.spike] = 0.4

const made = makeUp(planOfBuild({ rest_A: 12e-6, send_s: 0.4, idle_s: 0 }), 1, 0)
export const MADE_CSV = `time (s),current (A)\n${Array.from(
  made.current_A,
  (x, k) => `${(k * made.interval_s).toFixed(3)},${x.toExponential(6)}\n`,
).join('')}`

export const openBench = (): Promise<Workbench> =>
  openWorkbench({
    examples: [GAUGE, 'recordings', 'instruments'],
    files: { [LONG.name]: new Uint8Array(long.buffer), 'made.csv': MADE_CSV },
  })

export const address = (query: Readonly<Record<string, string | number>>) =>
  `/bench?${new URLSearchParams(query as Record<string, string>)}`
export const trace = (page: Page) => page.getByRole('application', { name: /^Current over time/ })
export const sentence = (page: Page, note: number) => page.locator('.note-sentence').nth(note - 1)
export const more = (page: Page) => new URL(page.url()).searchParams
export const read = (page: Page) => page.locator('table.states tbody tr').first().waitFor({ timeout: 60_000 })

/** Directly from the samples; each is held for an interval, and cut by the ends of the span. */
export function directCharge(from_s: number, to_s: number): number {
  const { current_A, interval_s } = made
  let charge_C = 0
  for (let i = 0; i < current_A.length; i++) {
    const inside = Math.min((i + 1) * interval_s, to_s) - Math.max(i * interval_s, from_s)
    if (inside > 0) charge_C += Number(current_A[i].toExponential(6)) * inside
  }
  return charge_C
}

/** Without the blanks at which no line ends. */
export const plain = (text: string | null): string => (text ?? '').replaceAll('\u00a0', ' ')

const UNITS: Readonly<Record<string, number>> = { nC: 1e-9, µC: 1e-6, mC: 1e-3, C: 1 }

export function chargeIn(text: string) {
  const [, value, , unit] = /: (-?[\d.]+)( ± [\d.]+)? ([nµm]?C)\b/.exec(plain(text))!
  return {
    charge_C: Number(value) * UNITS[unit],
    digit_C: UNITS[unit] * 10 ** -(value.split('.')[1]?.length ?? 0),
  }
}
