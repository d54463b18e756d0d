/** The thread of one piece of long work. Whatever comes to it means: stop. */
import { parentPort, workerData } from 'node:worker_threads'
import { doWork, type Job } from './do-work.ts'

/** What the thread posts: an event as JSON, what went wrong through our own fault, or that it is at its end. */
export type Posted = { readonly json: string } | { readonly fault: unknown } | 'end'

const post = (posted: Posted): void => parentPort?.postMessage(posted)

const stopping = new AbortController()
parentPort?.on('message', () => stopping.abort())
const listener = {
  tell: (json: string) => post({ json }),
  onFault: (error: unknown) => post({ fault: error }),
}
await doWork(workerData as Job, listener, stopping.signal)
post('end')
