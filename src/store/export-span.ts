/** A span of a recording as a file: CSV, NumPy .npy (float64, one row per sample) or Parquet. */
import { type FileHandle, open, rename, rm } from 'node:fs/promises'
import { ByteWriter, ParquetWriter, schemaFromColumnData } from 'hyparquet-writer'
import { npyHeader } from '../recording/binary.ts'
import type { Recording } from '../recording/recording.ts'
import { type Span, wholeSpan } from '../recording/span.ts'
import { type SpanColumns, shortest, spanColumns } from '../recording/span-columns.ts'

export type ExportFormat = 'csv' | 'npy' | 'parquet'

export interface ExportOptions {
  readonly format: ExportFormat
  readonly span?: Span
  readonly signal?: AbortSignal
  /** Samples written so far. */
  readonly onProgress?: (samples: number) => void
}

/** Turns the blocks of a span into bytes, block by block. */
interface Encoder {
  start(samples: number): Uint8Array
  encode(columns: SpanColumns): Uint8Array | Promise<Uint8Array>
  end(): Uint8Array | Promise<Uint8Array>
}

/** Writes the samples that start within the span; under another name until whole. Returns how many there are. */
export async function exportSpan(
  recording: Recording,
  path: string,
  options: ExportOptions,
): Promise<number> {
  const span = options.span ?? wholeSpan(recording)
  const partial = `${path}.${process.pid}.partial`
  let done = 0
  try {
    const file = await open(partial, 'w')
    try {
      for await (const { bytes, samples } of spanPieces(recording, options.format, span)) {
        options.signal?.throwIfAborted()
        await writeAll(file, bytes)
        done += samples
        options.onProgress?.(done)
      }
    } finally {
      await file.close()
    }
    await rename(partial, path)
  } catch (error) {
    await rm(partial, { force: true })
    throw error
  }
  return done
}

/** The bytes of the file, piece by piece, with how many samples each holds. */
export async function* spanPieces(
  recording: Recording,
  format: ExportFormat,
  span: Span,
): AsyncGenerator<{ readonly bytes: Uint8Array; readonly samples: number }> {
  const encoder = encoderFor(format, recording.header.hasVoltage)
  yield { bytes: encoder.start(format === 'npy' ? countSamples(recording, span) : 0), samples: 0 }
  for (const columns of spanColumns(recording, span))
    yield { bytes: await encoder.encode(columns), samples: columns.time_s.length }
  yield { bytes: await encoder.end(), samples: 0 }
}

async function writeAll(file: FileHandle, bytes: Uint8Array): Promise<void> {
  for (let done = 0; done < bytes.length; ) done += (await file.write(bytes, done)).bytesWritten
}

function countSamples(recording: Recording, span: Span): number {
  let count = 0
  for (const columns of spanColumns(recording, span)) count += columns.time_s.length
  return count
}

function encoderFor(format: ExportFormat, hasVoltage: boolean): Encoder {
  if (format === 'csv') return csvEncoder(hasVoltage)
  return format === 'npy' ? npyEncoder(hasVoltage) : parquetEncoder(hasVoltage)
}

const NOTHING = new Uint8Array(0)

function csvEncoder(hasVoltage: boolean): Encoder {
  const text = new TextEncoder()
  return {
    start: () => text.encode(`time_s,current_A${hasVoltage ? ',voltage_V' : ''}\n`),
    encode: ({ time_s, current_A, voltage_V }) => {
      const lines: string[] = []
      for (let i = 0; i < time_s.length; i++) {
        const voltage = voltage_V === null ? '' : `,${shortest(voltage_V[i])}`
        lines.push(`${Number(time_s[i].toPrecision(15))},${shortest(current_A[i])}${voltage}\n`)
      }
      return text.encode(lines.join(''))
    },
    end: () => NOTHING,
  }
}

function npyEncoder(hasVoltage: boolean): Encoder {
  const width = hasVoltage ? 3 : 2
  return {
    start: (samples) => npyHeader(samples, width),
    encode: ({ time_s, current_A, voltage_V }) => {
      const rows = new Float64Array(time_s.length * width)
      for (let i = 0; i < time_s.length; i++) {
        rows[i * width] = time_s[i]
        rows[i * width + 1] = current_A[i]
        if (voltage_V) rows[i * width + 2] = voltage_V[i]
      }
      return new Uint8Array(rows.buffer)
    },
    end: () => NOTHING,
  }
}

/** One row group per block; a missing value is null. */
function parquetEncoder(hasVoltage: boolean): Encoder {
  const bytes = new ByteWriter()
  const columnsOf = ({ time_s, current_A, voltage_V }: SpanColumns) => [
    { name: 'time_s', data: time_s, type: 'DOUBLE' as const },
    { name: 'current_A', data: withNulls(current_A), type: 'FLOAT' as const },
    ...(voltage_V ? [{ name: 'voltage_V', data: withNulls(voltage_V), type: 'FLOAT' as const }] : []),
  ]
  const empty = { time_s: new Float64Array(0), current_A: new Float32Array(0) }
  const schema = schemaFromColumnData({
    columnData: columnsOf({ ...empty, voltage_V: hasVoltage ? new Float32Array(0) : null }),
  })
  const writer = new ParquetWriter({ writer: bytes, schema, createdBy: 'overwinter' })
  const taken = () => {
    const piece = bytes.getBytes().slice()
    bytes.index = 0
    return piece
  }
  return {
    start: taken,
    encode: async (columns) => {
      const columnData = columnsOf(columns).map(({ name, data }) => ({ name, data }))
      await writer.write({ columnData, rowGroupSize: columns.time_s.length })
      return taken()
    },
    end: async () => {
      await writer.finish()
      return taken()
    },
  }
}

function withNulls(values: Float32Array): Float32Array | (number | null)[] {
  return values.some(Number.isNaN) ? Array.from(values, (x) => (Number.isNaN(x) ? null : x)) : values
}
