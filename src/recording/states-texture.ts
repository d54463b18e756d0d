/**
 * Segments that come and go faster than a period of the mains are the texture of one state: bursts of a switching
 * converter, packets of a radio, hum. No device of this trade wakes forty times a second.
 */
import type { Path } from './states-path.ts'

/** A level that comes back within this time recurs: a period of 50 Hz and a tenth. */
const RECURS_WITHIN_S = 0.022
/** In a texture each level comes back so many times, on average. */
const FEWEST_RETURNS = 4

/** The path with each run of recurring segments as one segment, of the level that holds most of it. */
export function joinTexture(path: Path, samples: number, interval_s: number): Path {
  const { starts, levels } = path
  const end = (k: number) => (k + 1 < starts.length ? starts[k + 1] : samples)
  const joined: { start: number; level: number }[] = []
  const add = (start: number, level: number) => {
    if (joined.length === 0 || joined[joined.length - 1].level !== level) joined.push({ start, level })
  }
  let k = 0
  for (const { from, to } of texturesOf(path, end, RECURS_WITHIN_S / interval_s)) {
    for (; k < from; k++) add(starts[k], levels[k])
    if (k <= to)
      add(
        starts[k],
        longestLevel(levels, k, to, (j) => end(j) - starts[j]),
      )
    k = Math.max(k, to + 1)
  }
  for (; k < starts.length; k++) add(starts[k], levels[k])
  return {
    starts: Int32Array.from(joined, ({ start }) => start),
    levels: Uint16Array.from(joined, ({ level }) => level),
  }
}

/** Runs of segments whose levels recur, each level several times: a try that is repeated once is no texture. */
function texturesOf({ starts, levels }: Path, end: (k: number) => number, within: number) {
  const textures: { from: number; to: number }[] = []
  const lastEnd = new Map<number, number>()
  let from = 0
  for (let k = 0; k <= starts.length; k++) {
    const before = k < starts.length ? lastEnd.get(levels[k]) : undefined
    if (before !== undefined && starts[k] - before <= within) {
      lastEnd.set(levels[k], end(k))
      continue
    }
    const distinct = new Set(levels.subarray(from, k)).size
    if (distinct > 0 && k - from >= FEWEST_RETURNS * distinct)
      textures.push({ from: firstOfRun(levels, from, k - 1), to: k - 1 })
    from = k + 1
    if (k < starts.length) lastEnd.set(levels[k], end(k))
  }
  return textures
}

/** The first visits to the levels of a run do not recur themselves, but belong to it. */
function firstOfRun(levels: Uint16Array, from: number, to: number): number {
  const within = new Set(levels.subarray(from, to + 1))
  let first = from
  while (first > 0 && within.has(levels[first - 1])) first--
  return first
}

function longestLevel(levels: Uint16Array, from: number, to: number, length: (k: number) => number): number {
  const held = new Map<number, number>()
  for (let k = from; k <= to; k++) held.set(levels[k], (held.get(levels[k]) ?? 0) + length(k))
  return [...held.entries()].reduce((a, b) => (b[1] > a[1] ? b : a))[0]
}
