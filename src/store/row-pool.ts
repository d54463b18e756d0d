/** Threads that read CSV rows; pieces may finish in any order, answers are awaited in the order of asking. */
import { Worker } from 'node:worker_threads'
import type { RowPlan } from '../recording/csv-row-plan.ts'
import type { Rows } from '../recording/csv-rows.ts'

interface Done {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly rows: Rows
}

interface Waiting {
  readonly resolve: (done: Done) => void
  readonly reject: (error: Error) => void
}

export class RowPool {
  private readonly workers: Worker[]
  private readonly waiting = new Map<Worker, Waiting[]>()
  private turn = 0

  constructor(threads: number, plan: RowPlan) {
    this.workers = Array.from({ length: threads }, () => this.start(plan))
  }

  private start(plan: RowPlan): Worker {
    const worker = startRowsWorker(plan)
    const queue: Waiting[] = []
    this.waiting.set(worker, queue)
    worker.on('message', (done: Done) => queue.shift()?.resolve(done))
    worker.on('error', (error: Error) => {
      for (const each of queue.splice(0)) each.reject(error)
    })
    return worker
  }

  /** Reads bytes[0 … length − 1]; `bytes` and `rows` (of an earlier answer, or null) go to the thread and come back. */
  read(bytes: Uint8Array<ArrayBuffer>, length: number, rows: Rows | null): Promise<Done> {
    const worker = this.workers[this.turn++ % this.workers.length]
    const columns = rows
      ? [rows.time_s, rows.current_A, rows.voltage_V].filter((column) => column !== null)
      : []
    const buffers = [bytes.buffer, ...columns.map((column) => column.buffer as ArrayBuffer)]
    return new Promise((resolve, reject) => {
      this.waiting.get(worker)?.push({ resolve, reject })
      worker.postMessage({ bytes, length, rows }, buffers)
    })
  }

  async close(): Promise<void> {
    await Promise.all(this.workers.map((worker) => worker.terminate()))
  }
}

/** The worker beside this file. Run from its sources, a thread must first be taught to load TypeScript. */
function startRowsWorker(workerData: RowPlan): Worker {
  const here = import.meta.url
  if (here.endsWith('.js')) return new Worker(new URL('./rows.worker.js', here), { workerData })
  const loader = JSON.stringify(import.meta.resolve('tsx/esm/api'))
  const source = JSON.stringify(new URL('./rows.worker.ts', here).href)
  const code = `import(${loader}).then(({ register }) => { register(); return import(${source}) })`
  return new Worker(code, { eval: true, workerData })
}
