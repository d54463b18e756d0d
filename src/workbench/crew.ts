/**
 * Worker threads that share one problem and take tasks of it. Results come back in the order of the tasks, so that an
 * answer is the same for any number of threads.
 */
import { setMaxListeners } from 'node:events'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Piscina } from 'piscina'
import type { Playing } from './playing.ts'

export interface Crew<Task, Result> {
  /** Hands each result to `use` in the order of the tasks, as soon as it and all before it are there, and forgets it. */
  each(tasks: readonly Task[], use: (result: Result) => void): Promise<void>
  /** All results, in the order of the tasks; `onResult` is called for each as by `each`. */
  run(tasks: readonly Task[], onResult?: (result: Result) => void): Promise<Result[]>
  close(): Promise<void>
}

export interface Work<Problem, Task, Result> {
  /** Beside this file: `workerData` is the problem, and its export `work` does one task. */
  readonly worker: string
  readonly problem: Problem
  /** Prepares to do the same on this thread; called only where there are no others. */
  readonly here: () => (task: Task) => Result
  /**
   * Where threads remember what they have played: tasks of one lane go to one thread, in their order. Lanes are counted
   * from 0; left out, whichever thread is free takes the next.
   */
  readonly laneOf?: (task: Task) => number
  /** A task may take seconds: then a single thread, too, is another one than this, which stays open to an interrupt. */
  readonly isLong?: boolean
}

/** Tasks that a thread has before it: the one it does and the one to go on with. */
const AT_HAND = 2

/** Threads load JavaScript only: unbuilt, as under a test runner, everything is done on this one. */
const runsFromSource = import.meta.url.endsWith('.ts')

export function crewFor<Problem, Task, Result>(
  { worker, problem, here, laneOf, isLong = false }: Work<Problem, Task, Result>,
  { threads, signal }: Pick<Playing, 'threads' | 'signal'>,
): Crew<Task, Result> {
  if ((threads <= 1 && !isLong) || runsFromSource) {
    const work = here()
    return crewOf(
      async (tasks, use) => {
        for (const task of tasks) {
          signal?.throwIfAborted()
          use(work(task))
          await new Promise(setImmediate) // lets an interrupt through
        }
      },
      async () => {},
    )
  }
  if (signal !== undefined) setMaxListeners(0, signal) // each task listens
  // Idle threads are kept: what they have worked out, and learnt to run fast, serves the next tasks.
  const poolOf = (size: number) =>
    new Piscina({
      filename: workerFile(worker),
      minThreads: size,
      maxThreads: size,
      // Of a long ensemble the heap would otherwise grow with what is thrown away.
      resourceLimits: { maxYoungGenerationSizeMb: 16 },
      workerData: problem,
    })
  const pools = laneOf === undefined ? [poolOf(threads)] : Array.from({ length: threads }, () => poolOf(1))
  return crewOf(
    async (tasks, use) => {
      const waiting = new Map<number, Result>()
      let next = 0
      let isOver = false
      const done = (place: number, result: Result) => {
        waiting.set(place, result)
        while (waiting.has(next)) {
          use(waiting.get(next) as Result)
          waiting.delete(next++)
        }
      }
      // Tasks are handed out as threads come for them: were all handed out at once, all would have to be called off.
      const takeFrom = async (pool: Piscina, places: number[]) => {
        for (let place = places.shift(); place !== undefined && !isOver; place = places.shift())
          try {
            const result = await pool.run(tasks[place], { name: 'work', ...(signal ? { signal } : {}) })
            if (!isOver) done(place, result)
          } catch (error) {
            isOver = true
            throw error
          }
      }
      await Promise.all(
        pools.flatMap((pool, lane) => {
          const places = [...tasks.keys()].filter((i) => lane === (laneOf?.(tasks[i]) ?? 0) % pools.length)
          const hands = AT_HAND * pool.options.maxThreads
          return Array.from({ length: hands }, () => takeFrom(pool, places))
        }),
      )
    },
    async () => {
      await Promise.all(pools.map((pool) => pool.destroy()))
    },
  )
}

const crewOf = <Task, Result>(
  each: Crew<Task, Result>['each'],
  close: Crew<Task, Result>['close'],
): Crew<Task, Result> => ({
  each,
  async run(tasks, onResult) {
    const results: Result[] = []
    await each(tasks, (result) => {
      results.push(result)
      onResult?.(result)
    })
    return results
  },
  close,
})

function workerFile(name: string): string {
  const file = fileURLToPath(new URL(`./${name}.js`, import.meta.url))
  if (!existsSync(file)) throw new Error(`the worker ${file} is missing: build again`)
  return file
}
