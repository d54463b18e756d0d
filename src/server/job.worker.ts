/** The thread of one piece of long work. What comes to it means: stop, or that the user has enough. */
import { parentPort, workerData } from 'node:worker_threads'
import { doWork, type Job } from './do-work.ts'

/** What the thread posts: an event as JSON, what went wrong through our own fault, or that it is at its end. */
export type Posted = { readonly json: string } | { readonly fault: unknown } | 'end'

export type Said = 'stop' | 'enough'

const post = (posted: Posted): void => parentPort?.postMessage(posted)

const ending = { stop: new AbortController(), enough: new AbortController() }
parentPort?.on('message', (said: Said) => ending[said].abort())
const listener = {
  tell: (json: string) => post({ json }),
  onFault: (error: unknown) => post({ fault: error }),
}
await doWork(workerData as Job, listener, { signal: ending.stop.signal, enough: ending.enough.signal })
post('end')
