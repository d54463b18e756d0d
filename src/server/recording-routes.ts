/** `/api/recording`: answers about recordings that were imported, at once and at any zoom. */
import { basename } from 'node:path'
import { type Context, Hono } from 'hono'
import type { SpanAnswer } from '../api/bench.ts'
import { spanHistogram, spanQuantiles } from '../recording/distribution.ts'
import { coarseHistogram } from '../recording/histogram-coarse.ts'
import type { Recording } from '../recording/recording.ts'
import { clipSpan, type Span, spanStatistics } from '../recording/span.ts'
import { spanSamples } from '../recording/span-samples.ts'
import { gridAt } from '../recording/view.ts'
import type { ExportFormat } from '../store/export-span.ts'
import { type OpenRecording, openRecording } from '../store/recording-folder.ts'
import { exportedStream } from './exported-stream.ts'
import { importedOf } from './imported.ts'
import { OpenRecordings } from './open-recordings.ts'
import { numberAsked, rateAsked, spanAsked } from './recording-asked.ts'
import { Refused } from './refused.ts'
import { fileAsked } from './request-body.ts'
import type { Setting } from './setting.ts'

const MOST_BUCKETS = 8192
const BINS_PER_DECADE = 12

export function recordingRoutes({ folder, closing }: Setting): Hono {
  const open = new OpenRecordings(folder, closing)
  /** Views and sums are of a few milliseconds: they are answered here and now, before anything else can close it. */
  const answer = async <T>(c: Context, of: (recording: OpenRecording) => T): Promise<T> => {
    const recording = await open.get(fileAsked(c), rateAsked(c))
    return soundly(fileAsked(c), () => of(recording))
  }
  return new Hono()
    .get('/', async (c) => {
      const recording = await open.find(fileAsked(c), rateAsked(c))
      return c.json(recording && soundly(fileAsked(c), () => importedOf(fileAsked(c), recording)))
    })
    .get('/view', async (c) => {
      const span = spanAsked(c)
      const buckets = numberAsked(c, 'buckets')
      if (!Number.isInteger(buckets) || buckets < 1 || buckets > MOST_BUCKETS)
        throw new Refused(422, `buckets is a whole number from 1 to ${MOST_BUCKETS}, not ${buckets}.`)
      const isExact = c.req.query('exact') === 'yes'
      const { holds, bytes } = await answer(c, (recording) => viewOf(recording, span, buckets, isExact))
      return c.body(bytes, 200, { 'content-type': 'application/octet-stream', 'x-holds': holds })
    })
    .get('/statistics', async (c) => {
      const span = spanAsked(c)
      return c.json(await answer(c, (recording) => spanAnswer(recording, span)))
    })
    .get('/export', async (c) => {
      const format = formatAsked(c)
      const { span, kept } = await answer(c, (recording) => ({
        span: clipSpan(recording, spanAsked(c)),
        kept: recording.folder,
      }))
      const name = `${basename(fileAsked(c)).replace(/\.(csv|tsv|npy|f32|raw)(\.gz)?$/i, '')}-part.${format}`
      c.header('content-type', 'application/octet-stream')
      c.header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(name)}`)
      // Others may be asked for meanwhile: it takes a handle of its own.
      return c.body(exportedStream(openRecording(kept), format, span))
    })
}

function viewOf(recording: Recording, span: Span, buckets: number, isExact: boolean) {
  const samples = isExact ? spanSamples(recording, span, 2 * buckets) : null
  if (samples !== null)
    return { holds: 'samples', bytes: joined([samples.from_s, samples.to_s, samples.current_A]) }
  const { min_A, max_A, mean_A, covered } = gridAt(recording, buckets, span)
  return { holds: 'buckets', bytes: joined([min_A, max_A, mean_A, covered]) }
}

/** Little-endian, as every machine that this runs on has them. */
function joined(arrays: readonly (Float32Array | Float64Array)[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(arrays.reduce((sum, { byteLength }) => sum + byteLength, 0))
  let at = 0
  for (const { buffer, byteOffset, byteLength } of arrays) {
    bytes.set(new Uint8Array(buffer, byteOffset, byteLength), at)
    at += byteLength
  }
  return bytes
}

function spanAnswer(recording: Recording, span: Span): SpanAnswer {
  return {
    ...spanStatistics(recording, span),
    quantiles_A: spanQuantiles(recording, [0.05, 0.5, 0.95], span).values_A,
    histogram: coarseHistogram(spanHistogram(recording, span), BINS_PER_DECADE),
  }
}

function formatAsked(c: Context): ExportFormat {
  const format = c.req.query('format')
  if (format === 'csv' || format === 'npy' || format === 'parquet') return format
  throw new Refused(422, 'format is csv, npy or parquet.')
}

/** The engine says by a RangeError that a span misses the recording, and by an Error that what is kept is damaged. */
function soundly<T>(file: string, of: () => T): T {
  try {
    return of()
  } catch (error) {
    if (!(error instanceof Error) || error.name === 'TypeError') throw error
    throw new Refused(422, `${file}: ${error.message}.`)
  }
}
