/** One thread of an import: reads a piece of a CSV file and leaves its rows in shared memory. */
import { parentPort, workerData } from 'node:worker_threads'
import { readRows } from '../recording/csv-rows.ts'
import { PieceReader } from './csv-piece.ts'
import type { RowsAnswer, RowsQuestion, RowsWork } from './row-pool.ts'

const { fd, plan, rooms } = workerData as RowsWork
const reader = new PieceReader(fd)

parentPort?.on('message', ({ piece, room }: RowsQuestion) => {
  const rows = rooms[room]
  const { bytes, from, to } = reader.read(piece)
  readRows(bytes, from, to, plan, rows)
  const { count, lines, damaged, damagedLines } = rows
  parentPort?.postMessage({ count, lines, damaged, damagedLines } satisfies RowsAnswer)
})
