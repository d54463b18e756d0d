/** Runs a job in a thread of its own, so that the server goes on answering, and what it loads goes with it. */
import { Worker } from 'node:worker_threads'
import { doWork, type Ends, type Job, type Listener, ourFault } from './do-work.ts'
import type { Posted, Said } from './job.worker.ts'

/** Threads load JavaScript only: unbuilt, as under a test runner, work is done on this one. */
const runsFromSource = import.meta.url.endsWith('.ts')
/** Work that was told to stop and has not by then is ended. */
const PATIENCE_MS = 2000

/** Resolves when the job and all its threads are at their end; never rejects. */
export function runJob(job: Job, listener: Listener, ends: Ends): Promise<void> {
  if (ends.signal.aborted) return Promise.resolve()
  return runsFromSource ? doWork(job, listener, ends) : runThread(job, listener, ends)
}

function runThread(job: Job, { tell, onFault }: Listener, { signal, enough }: Ends): Promise<void> {
  return new Promise((resolve) => {
    const worker = new Worker(new URL('./job.worker.js', import.meta.url), { workerData: job })
    let hasEnded = false
    let ending: NodeJS.Timeout | undefined
    const end = () => void worker.terminate()
    const say = (said: Said) => worker.postMessage(said)
    const stop = () => {
      say('stop')
      ending = setTimeout(end, PATIENCE_MS)
    }
    const finish = () => say('enough')
    const fail = (error: unknown) => {
      hasEnded = true
      onFault(error)
      tell(JSON.stringify(ourFault(error)))
    }
    signal.addEventListener('abort', stop)
    enough.addEventListener('abort', finish)
    worker.on('message', (posted: Posted) => {
      if (posted === 'end') {
        hasEnded = true
        end()
      } else if ('fault' in posted) onFault(posted.fault)
      else tell(posted.json)
    })
    worker.on('error', fail) // out of memory, for one
    worker.on('exit', () => {
      clearTimeout(ending)
      signal.removeEventListener('abort', stop)
      enough.removeEventListener('abort', finish)
      if (!hasEnded && !signal.aborted)
        fail(new Error('the thread of the work ended before it had an answer'))
      resolve()
    })
  })
}
