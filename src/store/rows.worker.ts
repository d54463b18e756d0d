/** One thread of an import: turns a piece of CSV text into columns and hands both buffers back. */
import { parentPort, workerData } from 'node:worker_threads'
import type { RowPlan } from '../recording/csv-row-plan.ts'
import { type Rows, readRows, rowsFor } from '../recording/csv-rows.ts'

interface Job {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly length: number
  readonly rows: Rows | null
}

const plan = workerData as RowPlan

parentPort?.on('message', ({ bytes, length, rows: used }: Job) => {
  const rows = used ?? rowsFor(bytes.length, plan)
  readRows(bytes, 0, length, plan, rows)
  const columns = [rows.time_s, rows.current_A, rows.voltage_V].filter((column) => column !== null)
  const buffers = [bytes.buffer, ...columns.map((column) => column.buffer as ArrayBuffer)]
  parentPort?.postMessage({ bytes, rows }, buffers)
})
