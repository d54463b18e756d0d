/** Drives a study of designs: plays what it asks for, on threads, until it has its answer. */
import { type Asked, type DesignSpace, playerOf, type Survived, together } from '../decisions/common-runs.ts'
import type { Study } from '../decisions/study.ts'
import { crewFor } from './crew.ts'
import type { Playing } from './playing.ts'

/** Runs that a thread takes at a time, of all designs of one question; counts are whole numbers, so any number will do. */
const CHUNK_RUNS = 4

/** A run is always played by the same thread, which remembers its weather and what it survived. */
interface Part extends Asked {
  readonly by: number
}

/**
 * The answer is the same for any number of threads. Progress counts runs of designs; a study asks for more as it learns,
 * so what is known of the whole grows too.
 */
export async function playStudy<Result>(
  study: Study<Result>,
  space: DesignSpace,
  playing: Playing,
): Promise<Result> {
  const crew = crewFor<DesignSpace, Part, Survived[]>(
    {
      worker: 'decision-worker',
      isLong: true,
      problem: space,
      here: () => playerOf(space),
      laneOf: ({ from, by }) => from % by,
    },
    playing,
  )
  let done = 0
  let asked = 0
  try {
    let step = study.next([])
    while (!step.done) {
      const shared = sharing(step.value)
      const chunks = shared.map((each) => partsOf(each, playing.threads))
      asked += step.value.reduce((sum, { picks, from, to }) => sum + picks.length * (to - from), 0)
      const counts = await crew.run(chunks.flat(), (result) => {
        done += result.reduce((sum, { runs }) => sum + runs, 0)
        playing.onProgress?.(done, asked)
      })
      let at = 0
      const played = chunks.map(({ length }) => {
        const parts = counts.slice(at, at + length)
        at += length
        return parts.reduce((sum, more) => sum.map((count, i) => together(count, more[i])))
      })
      const answers = step.value.map((each) => {
        const i = shared.findIndex((range) => isSameRange(range, each))
        return played[i].splice(0, each.picks.length)
      })
      step = study.next(answers)
    }
    return step.value
  } finally {
    await crew.close()
  }
}

const isSameRange = (a: Asked, b: Asked): boolean => a.from === b.from && a.to === b.to

/** What is asked of the same runs as one, in the order of asking: it shares their weather. */
function sharing(asked: readonly Asked[]): Asked[] {
  const shared: Asked[] = []
  for (const each of asked) {
    const i = shared.findIndex((range) => isSameRange(range, each))
    if (i < 0) shared.push(each)
    else shared[i] = { ...each, picks: [...shared[i].picks, ...each.picks] }
  }
  return shared
}

function partsOf({ picks, from, to }: Asked, threads: number): Part[] {
  const parts: Part[] = []
  for (let at = from; at < to; at += CHUNK_RUNS * threads)
    for (let first = at; first < Math.min(at + threads, to); first++)
      parts.push({ picks, from: first, to: Math.min(first + CHUNK_RUNS * threads, to), by: threads })
  return parts
}
