/** A large CSV file read by several threads: pieces end at line ends, rows are passed on in order. */
import type { FileHandle } from 'node:fs/promises'
import { type CsvPlan, RowOrder } from '../recording/csv.ts'
import type { Rows } from '../recording/csv-rows.ts'
import type { SampleSink } from '../recording/recording.ts'
import { RowPool } from './row-pool.ts'

/** Pieces are small enough that all buffers of all threads stay well below 200 MB. */
const PIECE = 1 << 21
const PIECES_PER_THREAD = 2

export async function readCsvFile(
  file: FileHandle,
  plan: CsvPlan,
  sink: SampleSink,
  threads: number,
  onBytes: (done: number) => void,
): Promise<void> {
  const pool = new RowPool(threads, plan.rows)
  const order = new RowOrder(plan, sink)
  const free: { bytes: Uint8Array<ArrayBuffer>; rows: Rows | null }[] = []
  const running: ReturnType<RowPool['read']>[] = []
  const takeOne = async () => {
    const done = await running.shift()!
    order.pass(done.rows)
    free.push(done)
  }
  try {
    let position = plan.firstByte
    let rest = new Uint8Array(0)
    for (let ended = false; !ended; ) {
      if (running.length >= threads * PIECES_PER_THREAD) await takeOne()
      const { bytes, rows } = free.pop() ?? { bytes: new Uint8Array(PIECE + 1), rows: null }
      bytes.set(rest)
      const { bytesRead } = await file.read(bytes, rest.length, PIECE - rest.length, position)
      position += bytesRead
      ended = bytesRead === 0
      const filled = rest.length + bytesRead
      // Rows are read from whole lines, so the last one gets its end where it lacks it.
      if (ended) bytes[filled] = 10
      const length = ended ? filled && filled + 1 : bytes.subarray(0, filled).lastIndexOf(10) + 1
      if (length === 0 && filled === PIECE)
        throw new Error('no line ends within 2 MB; this is not a table of text')
      rest = bytes.slice(Math.min(length, filled), filled)
      if (length > 0) running.push(pool.read(bytes, length, rows))
      else free.push({ bytes, rows })
      onBytes(position)
    }
    while (running.length > 0) await takeOne()
  } finally {
    // Answers still on their way are not wanted any more.
    for (const each of running) each.catch(() => {})
    await pool.close()
  }
}
