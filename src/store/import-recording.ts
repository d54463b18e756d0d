/**
 * From a file of measurements to a recording folder named by the source's fingerprint. The folder is written under
 * another name and renamed when it is whole, so an interrupted import leaves no recording behind; a source that is
 * already there is opened at once.
 */
import { existsSync } from 'node:fs'
import { type FileHandle, mkdir, open, readdir, rename, rm } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { basename, join } from 'node:path'
import { type BinaryOptions, BinaryStream, NPY_MAGIC, planNpy, planRaw } from '../recording/binary.ts'
import { type BuilderPlan, RecordingBuilder } from '../recording/builder.ts'
import { CSV_HEAD, type CsvPlan, CsvStream, planCsv } from '../recording/csv.ts'
import type { CsvOptions } from '../recording/csv-columns.ts'
import type { Origin } from '../recording/recording.ts'
import { readCsvFile } from './csv-file.ts'
import { identify } from './fingerprint.ts'
import { FolderSink, isRecordingFolder, type OpenRecording, openRecording } from './recording-folder.ts'
import { sourcePieces } from './source-pieces.ts'

export interface ReadOptions extends CsvOptions, BinaryOptions {
  /** How to read the source; by default its first bytes and its name decide (`.f32` and `.raw` are raw float32). */
  readonly format?: 'csv' | 'npy' | 'raw-float32'
}

export interface ImportOptions {
  readonly read?: ReadOptions
  /** Refuse a source with any flaw instead of noting it. */
  readonly strict?: boolean
  readonly signal?: AbortSignal
  readonly onProgress?: (doneBytes: number, allBytes: number) => void
  /** Threads for CSV files that are not packed: by default as many as processors for large ones, none for small. */
  readonly threads?: number
}

export interface Imported {
  readonly recording: OpenRecording
  /** True when it had been imported before. */
  readonly reused: boolean
}

/** How folders begin that are still being written, followed by the process that writes. */
const PARTIAL = '.partial-'

/** Smaller files are read before another thread would have started. */
const WORTH_THREADS = 1 << 23

/** More threads than this would wait for the one that builds the recording. */
const MOST_THREADS = 4

const threadsFor = (bytes: number): number =>
  bytes < WORTH_THREADS ? 0 : Math.min(availableParallelism(), MOST_THREADS)

/** Imports `path` into `root`/<fingerprint>. Throws Error with cause and cure; leaves no half recording behind. */
export async function importRecording(
  path: string,
  root: string,
  options: ImportOptions = {},
): Promise<Imported> {
  const { read = {}, strict = false, signal } = options
  signal?.throwIfAborted()
  const identity = await identify(path, read)
  const folder = join(root, identity.fingerprint)
  if (isRecordingFolder(folder)) {
    const recording = openNamed(folder, basename(path))
    if (strict) refuseFlaws(recording.header.flawTotals)
    return { recording, reused: true }
  }
  const partial = join(root, `${PARTIAL}${process.pid}-${identity.fingerprint}-${Date.now()}`)
  await clearAbandoned(root)
  await mkdir(partial, { recursive: true })
  const sink = new FolderSink(partial)
  try {
    const source = { name: basename(path), ...identity }
    const start = (plan: BuilderPlan) => new RecordingBuilder(sink, plan)
    const onBytes = (done: number) => {
      signal?.throwIfAborted()
      options.onProgress?.(done, identity.bytes)
    }
    const { builder, about } = await readSource(
      path,
      read,
      start,
      onBytes,
      options.threads ?? threadsFor(identity.bytes),
    )
    signal?.throwIfAborted()
    const { header } = builder.finish({ source, ...about })
    if (strict) refuseFlaws(header.flawTotals)
    sink.finish(header)
    await moveInto(partial, folder)
  } catch (error) {
    sink.close()
    await rm(partial, { recursive: true, force: true })
    throw error
  }
  return { recording: openRecording(folder), reused: false }
}

/** Under the name that was asked for: a source that was renamed is still the same, and is told by its name of today. */
function openNamed(folder: string, name: string): OpenRecording {
  const recording = openRecording(folder)
  const { header } = recording
  return { ...recording, header: { ...header, source: { ...header.source, name } } }
}

function refuseFlaws(totals: readonly { kind: string; count: number }[]): void {
  if (totals.length === 0) return
  const found = totals.map((total) => `${total.kind} (${total.count})`).join(', ')
  throw new Error(`strict reading refuses this source: ${found}`)
}

/** Another import of the same source may have finished first; then its folder stands and ours goes. */
async function moveInto(partial: string, folder: string): Promise<void> {
  try {
    await rename(partial, folder)
  } catch (error) {
    if (!isRecordingFolder(folder)) throw error
    await rm(partial, { recursive: true, force: true })
  }
}

/** Removes what imports left that were killed before they could clean up: their process is gone. */
async function clearAbandoned(root: string): Promise<void> {
  const names = existsSync(root) ? await readdir(root) : []
  for (const name of names.filter((each) => each.startsWith(PARTIAL)))
    if (!isRunning(Number.parseInt(name.slice(PARTIAL.length), 10)))
      await rm(join(root, name), { recursive: true, force: true })
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0) // signal 0 only asks
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

type StartBuilder = (plan: BuilderPlan) => RecordingBuilder

interface SourceRead {
  readonly builder: RecordingBuilder
  readonly about: { readonly origin: Origin; readonly notes: readonly string[] }
}

async function readSource(
  path: string,
  read: ReadOptions,
  start: StartBuilder,
  onBytes: (done: number) => void,
  threads: number,
): Promise<SourceRead> {
  const file = await open(path)
  try {
    const head = await readHead(file)
    const zipped = head[0] === 0x1f && head[1] === 0x8b
    if (!zipped && threads > 0 && formatOf(path, head, read) === 'csv') {
      const plan = planCsv(head, read)
      const builder = start(csvBuilder(plan))
      const { size } = await file.stat()
      await readCsvFile(file, size, plan, builder, threads, onBytes)
      return { builder, about: plan }
    }
  } finally {
    await file.close()
  }
  return readStreamed(path, read, start, onBytes)
}

async function readHead(file: FileHandle): Promise<Uint8Array> {
  const { buffer, bytesRead } = await file.read(new Uint8Array(CSV_HEAD), 0, CSV_HEAD, 0)
  return buffer.subarray(0, bytesRead)
}

const csvBuilder = (plan: CsvPlan): BuilderPlan => ({
  hasVoltage: plan.rows.columns.some((column) => column.role === 'voltage'),
  interval_s: plan.interval_s,
  timeResolution_s: plan.timeResolution_s,
})

function formatOf(path: string, head: Uint8Array, read: ReadOptions): NonNullable<ReadOptions['format']> {
  if (read.format) return read.format
  if (NPY_MAGIC.every((byte, k) => head[k] === byte)) return 'npy'
  return /\.(f32|raw)(\.gz)?$/i.test(path) ? 'raw-float32' : 'csv'
}

/** Any source as one stream, unpacked where it is gzip. The first piece settles the format. */
async function readStreamed(
  path: string,
  read: ReadOptions,
  start: StartBuilder,
  onBytes: (done: number) => void,
): Promise<SourceRead> {
  const pieces = sourcePieces(path, CSV_HEAD, onBytes)
  const first = await pieces.next()
  const head: Uint8Array = first.done ? new Uint8Array(0) : first.value
  const { stream, firstByte, builder, about } = openStream(formatOf(path, head, read), head, read, start)
  stream.push(head.subarray(firstByte))
  for await (const piece of pieces) stream.push(piece)
  stream.end()
  return { builder, about }
}

function openStream(
  format: NonNullable<ReadOptions['format']>,
  head: Uint8Array,
  read: ReadOptions,
  start: StartBuilder,
) {
  if (format === 'csv') {
    const plan = planCsv(head, read)
    const builder = start(csvBuilder(plan))
    return {
      builder,
      about: plan,
      stream: new CsvStream(plan, builder),
      firstByte: plan.firstByte,
    }
  }
  const plan = format === 'npy' ? planNpy(head, read) : planRaw(read)
  const builder = start({ ...plan, hasVoltage: plan.voltage !== null })
  return { builder, about: plan, stream: new BinaryStream(plan, builder), firstByte: plan.firstByte }
}
