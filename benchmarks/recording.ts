/**
 * Import of a CSV recording against pandas, and how long any zoom or span of a long recording takes. Build, then run
 * `tsx benchmarks/recording.ts [--samples 50000000] [--rounds 3]`; ours and theirs take turns on the same file, in a
 * process each, so that neither gains from the other's warm-up.
 */
import { execFileSync } from 'node:child_process'
import { closeSync, mkdirSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { stream } from '../src/numeric/random.ts'
import { RecordingBuilder } from '../src/recording/builder.ts'
import { spanHistogram, spanQuantiles } from '../src/recording/distribution.ts'
import { BLOCK_SAMPLES } from '../src/recording/recording.ts'
import { type Span, spanStatistics } from '../src/recording/span.ts'
import { viewAt } from '../src/recording/view.ts'
import { FolderSink, type OpenRecording, openRecording } from '../src/store/recording-folder.ts'

const INTERVAL_s = 2e-5
const SEED = 20
const PANDAS = `
import sys, time
import pandas
start = time.perf_counter()
frame = pandas.read_csv(sys.argv[1])
print(time.perf_counter() - start, len(frame))
`

/** A sleeping device that sends for a tenth of a second every two seconds, with noise; in units of 0.1 µA. */
function signal(count: number): Int32Array {
  const random = stream(SEED, 0, 0)
  return Int32Array.from({ length: count }, (_, i) => {
    const sends = i % 100_000 < 5000
    return Math.round(
      (sends ? 800_000 : 7000) + (sends ? 4000 : 30) * (random.uniform() + random.uniform() - 1),
    )
  })
}

/** Two columns, about 20 bytes a row. The noise repeats after a million rows; the times do not. */
function writeCsv(path: string, samples: number): void {
  const pattern = signal(1_000_000)
  const file = openSync(path, 'w')
  writeSync(file, 'Time (s),Current (A)\n')
  for (let from = 0; from < samples; from += 100_000) {
    const lines: string[] = []
    for (let i = from; i < Math.min(from + 100_000, samples); i++)
      lines.push(`${(i * INTERVAL_s).toFixed(6)},${(pattern[i % pattern.length] * 1e-7).toFixed(7)}\n`)
    writeSync(file, lines.join(''))
  }
  closeSync(file)
}

function pandasSeconds(path: string): number | null {
  for (const python of ['python3', '/usr/bin/python3'])
    try {
      const out = execFileSync(python, ['-c', PANDAS, path], {
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      })
      return Number(out.split(' ')[0])
    } catch {
      // Not there, or without pandas: try the next.
    }
  return null
}

/** Seconds of one import by the built package, as users have it, and the most memory of the process that did it. */
function ourImport(path: string, folder: string): { seconds: number; memory_MB: number } {
  const args = [fileURLToPath(new URL('import-once.mjs', import.meta.url)), path, folder]
  const [seconds, memory_MB] = execFileSync(process.execPath, args, { encoding: 'utf8' })
    .split(' ')
    .map(Number)
  return { seconds, memory_MB }
}

/** A recording written straight into a folder, without a source. */
export function longRecording(folder: string, samples: number): OpenRecording {
  mkdirSync(folder)
  const sink = new FolderSink(folder)
  const builder = new RecordingBuilder(sink, {
    hasVoltage: false,
    interval_s: INTERVAL_s,
    timeResolution_s: 0,
  })
  const pattern = Float32Array.from(signal(16 * BLOCK_SAMPLES), (x) => x * 1e-7)
  for (let from = 0; from < samples; from += pattern.length) {
    const count = Math.min(pattern.length, samples - from)
    builder.columns({ count, time_s: null, current_A: pattern, voltage_V: null })
  }
  const source = { name: 'benchmark', bytes: 0, fingerprint: '' }
  sink.finish(builder.finish({ source, origin: { kind: 'elapsed', first_s: 0 }, notes: [] }).header)
  return openRecording(folder)
}

function queryTimes(
  recording: OpenRecording,
  query: (span: Span) => unknown,
): { median_ms: number; worst_ms: number } {
  const random = stream(SEED, 1, 0)
  const end = recording.header.duration_s
  const times: number[] = []
  for (let k = 0; k < 220; k++) {
    // Lengths from a few samples to the whole, alike on a logarithmic scale.
    const length = end * 10 ** (-6 * random.uniform())
    const from_s = k % 10 === 0 ? 0 : (end - length) * random.uniform()
    const start = performance.now()
    query({ from_s, to_s: k % 10 === 0 ? end : from_s + length })
    // The first twenty warm up.
    if (k >= 20) times.push(performance.now() - start)
  }
  times.sort((a, b) => a - b)
  return { median_ms: times[times.length >> 1], worst_ms: times[times.length - 1] }
}

export interface RecordingBenchOptions {
  readonly samples: number
  readonly longSamples: number
  readonly rounds: number
}

/** Prints both tables. Needs about 25 bytes of disk per CSV sample and 6 per sample of the long recording. */
export async function recordingBench(options: RecordingBenchOptions): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'overwinter-bench-'))
  try {
    const path = join(folder, 'samples.csv')
    writeCsv(path, options.samples)
    console.log(`Import of ${options.samples / 1e6} million samples from CSV, seed ${SEED}`)
    const ours: number[] = []
    const theirs: number[] = []
    for (let round = 0; round < options.rounds; round++) {
      const { seconds, memory_MB } = ourImport(path, join(folder, `import-${round}`))
      rmSync(join(folder, `import-${round}`), { recursive: true })
      const pandas = pandasSeconds(path)
      ours.push(seconds)
      if (pandas !== null) theirs.push(pandas)
      const ratio =
        pandas === null
          ? 'no pandas here'
          : `pandas ${pandas.toFixed(2)} s, ratio ${(pandas / seconds).toFixed(2)}`
      console.log(`  round ${round + 1}: ours ${seconds.toFixed(2)} s (${memory_MB.toFixed(0)} MB), ${ratio}`)
    }
    if (theirs.length > 0)
      console.log(`  best against best: ${(Math.min(...theirs) / Math.min(...ours)).toFixed(2)}`)
    rmSync(path)
    const recording = longRecording(join(folder, 'long'), options.longSamples)
    console.log(`Answers from ${options.longSamples / 1e6} million samples, 200 spans of all lengths`)
    for (const [name, query] of [
      ['view of 2000 buckets', (span: Span) => viewAt(recording, 2000, span)],
      ['charge and statistics', (span: Span) => spanStatistics(recording, span)],
      ['quantiles', (span: Span) => spanQuantiles(recording, [0.05, 0.5, 0.95], span)],
      ['histogram', (span: Span) => spanHistogram(recording, span)],
    ] as const) {
      const { median_ms, worst_ms } = queryTimes(recording, query)
      console.log(`  ${name}: median ${median_ms.toFixed(2)} ms, worst ${worst_ms.toFixed(2)} ms`)
    }
    recording.close()
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { values } = parseArgs({
    options: {
      samples: { type: 'string', default: '50000000' },
      long: { type: 'string', default: '100000000' },
      rounds: { type: 'string', default: '3' },
    },
  })
  await recordingBench({
    samples: Number(values.samples),
    longSamples: Number(values.long),
    rounds: Number(values.rounds),
  })
}
