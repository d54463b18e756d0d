/** A large CSV file read by several threads: each reads pieces of it on its own, rows are passed on in order. */
import type { FileHandle } from 'node:fs/promises'
import { type CsvPlan, RowOrder } from '../recording/csv.ts'
import type { SampleSink } from '../recording/recording.ts'
import { PIECE_BYTES } from './csv-piece.ts'
import { RowPool } from './row-pool.ts'

/** Reads the first `bytes` of a file. `onBytes` hears how many of them have been passed on, and may throw to stop. */
export async function readCsvFile(
  file: FileHandle,
  bytes: number,
  plan: CsvPlan,
  sink: SampleSink,
  threads: number,
  onBytes: (done: number) => void,
): Promise<void> {
  const pool = new RowPool(threads, file.fd, plan.rows)
  const order = new RowOrder(plan, sink)
  const running: { readonly rows: ReturnType<RowPool['read']>; readonly end: number }[] = []
  const takeOne = async () => {
    const { rows, end } = running.shift()!
    order.pass(await rows)
    onBytes(end)
  }
  try {
    for (let start = plan.firstByte; start < bytes; start += PIECE_BYTES) {
      if (running.length === pool.room) await takeOne()
      const end = Math.min(start + PIECE_BYTES, bytes)
      const rows = pool.read({ start, end, first: start === plan.firstByte })
      // A later piece may fail while an earlier one is awaited; it is heard of in its turn, if at all.
      rows.catch(() => {})
      running.push({ rows, end })
    }
    while (running.length > 0) await takeOne()
  } finally {
    await pool.close()
  }
}
