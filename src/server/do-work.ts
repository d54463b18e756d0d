/** Long work from its question to its answer, told as the contract has it; on whichever thread this is called. */
import type { Live } from '../api/bench.ts'
import type { Told } from '../api/work.ts'
import { Refusal } from '../workbench/refusal.ts'
import { Refused } from './refused.ts'
import { type KnownAsked, runWork } from './works/works.ts'

/** Plain data: it goes to another thread. */
export interface Job {
  readonly asked: KnownAsked
  readonly folder: string
  readonly calendarYear: number
  readonly threads: number
}

/** How work ends before its time. */
export interface Ends {
  /** What was done is thrown away. */
  readonly signal: AbortSignal
  /** What was done is the answer. */
  readonly enough: AbortSignal
}

export interface Listener {
  /** Takes one event at a time, as JSON. */
  readonly tell: (json: string) => void
  /** Takes what went wrong through our own fault. */
  readonly onFault: (error: unknown) => void
}

/** More often nobody sees it. */
const PROGRESS_MS = 50

/** Never throws. Of work that was stopped nothing more is told. */
export async function doWork(
  { asked, ...job }: Job,
  { tell, onFault }: Listener,
  { signal, enough }: Ends,
): Promise<void> {
  const told = (event: Told) => tell(JSON.stringify(event))
  try {
    const onPicture = (picture: Live) => told({ event: 'picture', picture })
    const answer = await runWork(asked, { ...job, signal, enough, onProgress: progressTo(told), onPicture })
    // Which work it answers stands in `asked`, and the table of works holds one to the other.
    if (!signal.aborted) told({ event: 'done', answer } as Told)
  } catch (error) {
    if (signal.aborted) return
    if (error instanceof Refusal || error instanceof Refused)
      return told({ event: 'refused', why: error.message, isOurs: false })
    onFault(error)
    told(ourFault(error))
  }
}

export const ourFault = (error: unknown): Told => ({
  event: 'refused',
  why: `This is a fault of Overwinter, please report it: ${error instanceof Error ? error.message : String(error)}`,
  isOurs: true,
})

function progressTo(told: (event: Told) => void): (done: number, of: number) => void {
  let last_ms = Number.NEGATIVE_INFINITY
  return (done, of) => {
    const now_ms = performance.now()
    if (done < of && now_ms - last_ms < PROGRESS_MS) return
    last_ms = now_ms
    told({ event: 'progress', done, of })
  }
}
