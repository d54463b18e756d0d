/** A span of a recording written as a file whose name says its kind. */
import { extname } from 'node:path'
import type { Recording } from '../recording/recording.ts'
import type { Span } from '../recording/span.ts'
import { type ExportFormat, exportSpan } from '../store/export-span.ts'
import { Refusal } from './refusal.ts'

const FORMATS: Readonly<Record<string, ExportFormat>> = {
  '.csv': 'csv',
  '.npy': 'npy',
  '.parquet': 'parquet',
}

/** The format that a file name asks for; a Refusal where it asks for none. */
export function exportFormat(path: string): ExportFormat {
  const format = FORMATS[extname(path).toLowerCase()]
  if (format === undefined)
    throw new Refusal(`--export ${path}: the name says no format. End it in .csv, .npy or .parquet.`)
  return format
}

/** Returns how many samples were written. */
export async function exportRecording(
  recording: Recording,
  path: string,
  span: Span,
  signal: AbortSignal,
): Promise<number> {
  try {
    return await exportSpan(recording, path, { format: exportFormat(path), span, signal })
  } catch (error) {
    if (error instanceof Error && 'code' in error)
      throw new Refusal(`${path} cannot be written: ${error.message}.`)
    throw error
  }
}
