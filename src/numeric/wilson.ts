/** Two-sided 97.5 % point of the standard normal law. */
const Z95 = 1.959963984540054

/**
 * 95 % score interval of a share (Wilson 1927, J. Am. Stat. Assoc. 22, 209–212).
 * Counts may be real-valued: weighted trials enter as their effective count. The interval lies in 0..1 and
 * contains successes / trials. Throws RangeError unless trials > 0 and 0 <= successes <= trials.
 */
export function wilson(successes: number, trials: number): { low: number; high: number } {
  if (!(trials > 0 && Number.isFinite(trials))) {
    throw new RangeError(`trials is ${trials}; it must be finite and above 0`)
  }
  if (!(successes >= 0 && successes <= trials)) {
    throw new RangeError(`successes is ${successes}; it must lie in 0..${trials} (the trials)`)
  }
  const share = successes / trials
  const z2 = (Z95 * Z95) / trials
  const centre = (share + z2 / 2) / (1 + z2)
  const half = Math.sqrt(share * (1 - share) * z2 + (z2 * z2) / 4) / (1 + z2)
  // Rounding alone could leave the share just outside at 0 and 1; the exact interval always holds it.
  return {
    low: Math.max(0, Math.min(share, centre - half)),
    high: Math.min(1, Math.max(share, centre + half)),
  }
}
