/**
 * A histogram of current that spans 0.1 nA to 1 kA in both directions with bins of 1/64 octave by the bits of the
 * float32 itself: sign, exponent and the six leading bits of the fraction. A bin is 0.8 % to 1.6 % wide, so a value read
 * back from it is within 0.8 % of the true one. Weights are seconds.
 */

const OCTAVE_BITS = 6
const SHIFT = 23 - OCTAVE_BITS
/** Smallest magnitude told from zero: 2^-33 A, 0.12 nA. Largest: 2^10 A; beyond, the last bin. */
const LOWEST = (127 - 33) << OCTAVE_BITS
const SIDE_BINS = 43 << OCTAVE_BITS
const ZERO_BIN = SIDE_BINS

export const HISTOGRAM_BINS = 2 * SIDE_BINS + 1

/** Bin of the float32 with these bits; rising with the value. NaN must not be asked. */
export function binOfBits(bits: number): number {
  const side = ((bits & 0x7fffffff) >>> SHIFT) - LOWEST
  if (side < 0) return ZERO_BIN
  const k = side < SIDE_BINS ? side : SIDE_BINS - 1
  return bits < 0 ? ZERO_BIN - 1 - k : ZERO_BIN + 1 + k
}

const word = new Int32Array(1)
const float = new Float32Array(word.buffer)

function sideEdge(k: number): number {
  word[0] = (k + LOWEST) << SHIFT
  return float[0]
}

/** Lower and upper edge of a bin in A. */
export function binEdges(bin: number): { low_A: number; high_A: number } {
  if (bin > ZERO_BIN) return { low_A: sideEdge(bin - ZERO_BIN - 1), high_A: sideEdge(bin - ZERO_BIN) }
  if (bin < ZERO_BIN) return { low_A: -sideEdge(ZERO_BIN - bin), high_A: -sideEdge(ZERO_BIN - 1 - bin) }
  return { low_A: -sideEdge(0), high_A: sideEdge(0) }
}
