/** The principal branch of Lambert's W: the w with w·e^w = x (Corless, Gonnet, Hare, Jeffrey & Knuth 1996). */

const BRANCH_POINT = -1 / Math.E

/**
 * W0 of `x` for x ≥ −1/e (RangeError below), to a few units in the last place, except close to the branch point −1/e,
 * where w is only known to the square root of the machine's precision because x is.
 */
export function lambertW0(x: number): number {
  if (!(x >= BRANCH_POINT)) throw new RangeError(`Lambert's W0 is real from -1/e on, not at ${x}`)
  if (x === 0 || x === Infinity) return x
  let w: number
  if (x < -0.25) {
    const p = Math.sqrt(2 * Math.max(0, 1 + Math.E * x))
    w = -1 + p - (p * p) / 3 + (11 / 72) * p ** 3 // Corless et al. (4.22), about the branch point
  } else if (x < Math.E) w = Math.log1p(x) * (x < 0 ? 1 : 0.8)
  else w = Math.log(x) - Math.log(Math.log(x)) // Corless et al. (4.18), first terms
  for (let i = 0; i < 20; i++) {
    const e = Math.exp(w)
    const f = w * e - x
    if (f === 0 || w === -1) break
    const step = f / (e * (w + 1) - ((w + 2) * f) / (2 * w + 2)) // Halley's method, Corless et al. (5.9)
    w -= step
    if (Math.abs(step) <= 2 * Number.EPSILON * Math.abs(w)) break
  }
  return w
}

/** W0(e^y) for any y, also where e^y would overflow: the w > 0 with w + ln w = y. */
export function lambertW0OfExp(y: number): number {
  if (y < 1) return lambertW0(Math.exp(y))
  let w = y - Math.log(y) * (1 - 1 / (1 + y))
  for (let i = 0; i < 20; i++) {
    const next = (w * (1 + y - Math.log(w))) / (1 + w) // Newton's method on w + ln w = y
    if (Math.abs(next - w) <= 2 * Number.EPSILON * w) return next
    w = next
  }
  return w
}
