/** Which segments hold clipped stretches: what flowed there was more than was measured. */
import type { Flaw } from './recording.ts'
import type { Segments } from './segments.ts'

/** 1 for each segment that a clipped stretch lies in. `firstSample`: where the segments begin within the recording. */
export function clippedSegments(
  { starts }: Pick<Segments, 'starts'>,
  flaws: readonly Flaw[],
  firstSample = 0,
): Uint8Array {
  const clipped = new Uint8Array(starts.length)
  for (const { kind, sample, count } of flaws) {
    if (kind !== 'saturated' || sample === null) continue
    const from = sample - firstSample
    const last = segmentAt(starts, from + count - 1)
    for (let k = Math.max(segmentAt(starts, from), 0); k <= last; k++) clipped[k] = 1
  }
  return clipped
}

/** The last segment that begins at or before a sample; −1 for samples before all. */
function segmentAt(starts: Int32Array, sample: number): number {
  let low = -1
  let high = starts.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (starts[middle] <= sample) low = middle
    else high = middle - 1
  }
  return low
}
