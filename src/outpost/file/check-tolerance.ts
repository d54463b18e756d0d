/** Tolerances that reach below zero, where the quantity cannot be. */
import { normalCdf, normalQuantile } from '../../numeric/normal.ts'
import type { Uncertain } from '../../quantity/uncertain.ts'
import type { Path } from './diagnostic.ts'
import type { Findings } from './findings.ts'

/** Numbers that mean something below zero. */
const SIGNED: ReadonlySet<unknown> = new Set([
  'cold lock-out',
  'latitude',
  'longitude',
  'elevation',
  'tilt',
  'azimuth',
  'horizon',
  'weather',
])

/** The 95 % point of the standard normal law, where the law of `t [a, b]` has its ends. */
const Z95 = normalQuantile(0.95)

/** `node` is what the schema read at `path`. */
export function checkTolerances(node: unknown, findings: Findings, path: Path = []): void {
  if (typeof node !== 'object' || node === null || SIGNED.has(path.at(-1))) return
  if ('source' in node && 'value' in node) {
    const values = Array.isArray(node.value) ? node.value : [node.value]
    const share = Math.max(...values.map((value) => shareBelowZero(value as Uncertain)))
    if (share > 0) warn(path, share, findings)
  } else
    for (const [key, each] of Object.entries(node))
      checkTolerances(each, findings, [...path, keyIn(node, key)])
}

const keyIn = (node: object, key: string): string | number => (Array.isArray(node) ? Number(key) : key)

function warn(path: Path, share: number, findings: Findings): void {
  findings.warn(path, {
    code: 'tolerance-below-zero',
    message: `its tolerance reaches below zero: ${(100 * share).toPrecision(2)} % of all draws fall there and count as 0, which shifts the mean`,
    expected: 'a number that stays above zero over its whole tolerance',
    cure: 'write "< limit" for what an instrument could not see, "low..high" for a range, or "typical [low, high]"',
  })
}

/** How likely a number that is above zero at its best is drawn below; 0 where its stated ends are not. */
function shareBelowZero(value: Uncertain): number {
  if (value.kind === 'normal' && value.value > 0 && value.value < 2 * value.u)
    return normalCdf(-value.value / value.u)
  if (value.kind === 'skewed' && value.typical > 0 && value.p5 < 0)
    return normalCdf((-Z95 * value.typical) / (value.typical - value.p5))
  return 0
}
