/**
 * Threads that read pieces of a CSV file. Rows come back in shared memory, which nothing has to be moved or copied for:
 * each thread has room for a few answers, and reads ahead while those are used.
 */
import { Worker } from 'node:worker_threads'
import type { RowPlan } from '../recording/csv-row-plan.ts'
import { type Rows, rowsFor } from '../recording/csv-row-room.ts'
import { PIECE_BYTES, type Piece } from './csv-piece.ts'

const ANSWERS_PER_THREAD = 2

/** What a thread is started with. */
export interface RowsWork {
  readonly fd: number
  readonly plan: RowPlan
  /** Where answers go, by the number that is asked with. */
  readonly rooms: readonly Rows[]
}

export interface RowsQuestion {
  readonly piece: Piece
  readonly room: number
}

/** What is not in the shared columns of the room. */
export type RowsAnswer = Pick<Rows, 'count' | 'lines' | 'damaged' | 'damagedLines'>

interface Asked {
  readonly room: Rows
  readonly resolve: (rows: Rows) => void
  readonly reject: (error: Error) => void
}

class RowThread {
  readonly worker: Worker
  private readonly rooms: readonly Rows[]
  private readonly asked: Asked[] = []
  private turn = 0

  constructor(fd: number, plan: RowPlan) {
    this.rooms = Array.from({ length: ANSWERS_PER_THREAD }, () =>
      rowsFor(PIECE_BYTES, plan, (bytes) => new SharedArrayBuffer(bytes)),
    )
    this.worker = startRowsWorker({ fd, plan, rooms: this.rooms })
    this.worker.on('message', (answer: RowsAnswer) => {
      const asked = this.asked.shift()
      asked?.resolve({ ...asked.room, ...answer })
    })
    this.worker.on('error', (error: Error) => {
      for (const { reject } of this.asked.splice(0)) reject(error)
    })
  }

  read(piece: Piece): Promise<Rows> {
    const room = this.turn++ % ANSWERS_PER_THREAD
    const question: RowsQuestion = { piece, room }
    return new Promise((resolve, reject) => {
      this.asked.push({ room: this.rooms[room], resolve, reject })
      this.worker.postMessage(question)
    })
  }
}

export class RowPool {
  /** How many answers may be awaited or in use at a time. */
  readonly room: number
  private readonly threads: readonly RowThread[]
  private turn = 0

  constructor(threads: number, fd: number, plan: RowPlan) {
    this.threads = Array.from({ length: threads }, () => new RowThread(fd, plan))
    this.room = threads * ANSWERS_PER_THREAD
  }

  /** The rows of a piece, until as many pieces have been asked for after it as there is room for. */
  read(piece: Piece): Promise<Rows> {
    return this.threads[this.turn++ % this.threads.length].read(piece)
  }

  async close(): Promise<void> {
    await Promise.all(this.threads.map((thread) => thread.worker.terminate()))
  }
}

/** The worker beside this file. Run from its sources, a thread must first be taught to load TypeScript. */
function startRowsWorker(workerData: RowsWork): Worker {
  const here = import.meta.url
  if (here.endsWith('.js')) return new Worker(new URL('./rows.worker.js', here), { workerData })
  const loader = JSON.stringify(import.meta.resolve('tsx/esm/api'))
  const source = JSON.stringify(new URL('./rows.worker.ts', here).href)
  const code = `import(${loader}).then(({ register }) => { register(); return import(${source}) })`
  return new Worker(code, { eval: true, workerData })
}
