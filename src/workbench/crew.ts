/**
 * Worker threads that share one problem and take tasks of it. Results come back in the order of the tasks, so that an
 * answer is the same for any number of threads.
 */
import { setMaxListeners } from 'node:events'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Piscina } from 'piscina'
import type { Playing } from './ensemble-pool.ts'

export interface Crew<Task, Result> {
  /** `onResult` is called after each task, in the order in which they finish. */
  run(tasks: readonly Task[], onResult?: (result: Result) => void): Promise<Result[]>
  close(): Promise<void>
}

export interface Work<Problem, Task, Result> {
  /** Beside this file: `workerData` is the problem, and its export `work` does one task. */
  readonly worker: string
  readonly problem: Problem
  /** Does the same on this thread. */
  readonly here: (task: Task) => Result
}

/** Threads load JavaScript only: unbuilt, as under a test runner, everything is done on this one. */
const runsFromSource = import.meta.url.endsWith('.ts')

export function crewFor<Problem, Task, Result>(
  { worker, problem, here }: Work<Problem, Task, Result>,
  { threads, signal }: Pick<Playing, 'threads' | 'signal'>,
): Crew<Task, Result> {
  if (threads <= 1 || runsFromSource)
    return {
      async run(tasks, onResult) {
        const results: Result[] = []
        for (const task of tasks) {
          signal?.throwIfAborted()
          const result = here(task)
          results.push(result)
          onResult?.(result)
          await new Promise(setImmediate) // lets an interrupt through
        }
        return results
      },
      async close() {},
    }
  if (signal !== undefined) setMaxListeners(0, signal) // each waiting task listens
  // Idle threads are kept: what they have worked out, and learnt to run fast, serves the next tasks.
  const pool = new Piscina({
    filename: workerFile(worker),
    minThreads: threads,
    maxThreads: threads,
    workerData: problem,
  })
  return {
    run: (tasks, onResult) =>
      Promise.all(
        tasks.map(async (task) => {
          const result: Result = await pool.run(task, { name: 'work', ...(signal ? { signal } : {}) })
          onResult?.(result)
          return result
        }),
      ),
    close: () => pool.destroy(),
  }
}

function workerFile(name: string): string {
  const file = fileURLToPath(new URL(`./${name}.js`, import.meta.url))
  if (!existsSync(file)) throw new Error(`the worker ${file} is missing: build again`)
  return file
}
