/**
 * Root of `f` between `low` and `high`, where it must change sign (RangeError otherwise): Brent's method (Brent,
 * "Algorithms for Minimization without Derivatives", 1973, chapter 4). `tolerance` is absolute, on x.
 */
export function brent(f: (x: number) => number, low: number, high: number, tolerance = 1e-12): number {
  let a = low
  let b = high
  let fa = f(a)
  let fb = f(b)
  if (fa === 0) return a
  if (fb === 0) return b
  if (!(fa < 0 !== fb < 0) || Number.isNaN(fa) || Number.isNaN(fb))
    throw new RangeError(`no change of sign between ${low} (${fa}) and ${high} (${fb})`)
  let c = a
  let fc = fa
  let step = b - a
  let before = step
  for (let i = 0; i < 200; i++) {
    if (fb < 0 === fc < 0) {
      c = a
      fc = fa
      step = b - a
      before = step
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      ;[a, b, c] = [b, c, b]
      ;[fa, fb, fc] = [fb, fc, fb]
    }
    const least = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2
    const middle = (c - b) / 2
    if (Math.abs(middle) <= least || fb === 0) return b
    if (Math.abs(before) >= least && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa
      let p: number
      let q: number
      if (a === c) {
        p = 2 * middle * s
        q = 1 - s
      } else {
        const r = fb / fc
        const t = fa / fc
        p = s * (2 * middle * t * (t - r) - (b - a) * (r - 1))
        q = (t - 1) * (r - 1) * (s - 1)
      }
      if (p > 0) q = -q
      p = Math.abs(p)
      if (2 * p < Math.min(3 * middle * q - Math.abs(least * q), Math.abs(before * q))) {
        before = step
        step = p / q
      } else {
        step = middle
        before = middle
      }
    } else {
      step = middle
      before = middle
    }
    a = b
    fa = fb
    b += Math.abs(step) > least ? step : Math.sign(middle) * least
    fb = f(b)
  }
  return b
}
