const RATIO = (Math.sqrt(5) - 1) / 2

/**
 * The place of the largest value of `f` on low..high, for a function with a single peak there: golden-section search
 * (Kiefer 1953). `tolerance` is on x; near the peak of a smooth function, x is known to about the square root of the
 * machine's precision at best.
 */
export function maximiseOn(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance = 1e-9,
): { x: number; y: number } {
  let a = low
  let b = high
  let left = b - RATIO * (b - a)
  let right = a + RATIO * (b - a)
  let fLeft = f(left)
  let fRight = f(right)
  while (b - a > tolerance) {
    if (fLeft < fRight) {
      a = left
      left = right
      fLeft = fRight
      right = a + RATIO * (b - a)
      fRight = f(right)
    } else {
      b = right
      right = left
      fRight = fLeft
      left = b - RATIO * (b - a)
      fLeft = f(left)
    }
  }
  const x = (a + b) / 2
  return { x, y: f(x) }
}
