import { spawnSync } from 'node:child_process'
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { asyncBufferFromFile, parquetReadObjects } from 'hyparquet'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readCurrent, readVoltage, timeOfSample } from '../recording/access.ts'
import { spanStatistics } from '../recording/span.ts'
import { viewAt } from '../recording/view.ts'
import { exportSpan } from './export-span.ts'
import { type ImportOptions, importRecording } from './import-recording.ts'
import { openRecording } from './recording-folder.ts'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'overwinter-store-'))
})
afterAll(() => rmSync(folder, { recursive: true }))

const SAMPLES = 140_000
const current = (i: number) => (i % 1000 < 50 ? 0.08 : 0.0007) + (i % 7) * 1e-6
const rows = Array.from(
  { length: SAMPLES },
  (_, i) => `${(i * 0.001).toFixed(3)},${current(i).toFixed(6)},3.3`,
)
const csv = `Time (s),Current (A),Voltage (V)\n${rows.join('\n')}\n`
const expected = Float32Array.from({ length: SAMPLES }, (_, i) => Number(current(i).toFixed(6)))

let files = 0
function source(content: string | Uint8Array, ending = 'csv'): string {
  const path = join(folder, `source-${files++}.${ending}`)
  writeFileSync(path, content)
  return path
}

async function imported(path: string, options: ImportOptions = {}) {
  const root = mkdtempSync(join(folder, 'recordings-'))
  return { ...(await importRecording(path, root, options)), root }
}

describe('import', () => {
  test.each([0, 2])('a CSV file read with %i threads comes out whole', async (threads) => {
    const path = source(
      csv + rows.map((row, i) => row.replace(/^[^,]*/, (140 + i * 0.001).toFixed(3))).join('\n'),
    )
    const { recording } = await imported(path, { threads })
    expect(recording.header).toMatchObject({ samples: 2 * SAMPLES, even: true, flaws: [], hasVoltage: true })
    expect(readCurrent(recording, SAMPLES, 2 * SAMPLES)).toEqual(expected)
    expect(timeOfSample(recording, 2 * SAMPLES - 1)).toBeCloseTo(279.999, 9)
    recording.close()
  })

  test('damaged lines keep their numbers across threads', async () => {
    const many = Array.from({ length: 450_000 }, (_, i) => (i % 200_000 === 77 ? 'oops' : `${i},0.5`))
    const { recording } = await imported(source(`time_s,current_A\n${many.join('\n')}\n`), { threads: 2 })
    const damaged = recording.header.flaws.filter((flaw) => flaw.kind === 'damaged-line')
    expect(damaged.map(({ line, sample, text }) => [line, sample, text])).toEqual([
      [79, 77, 'oops'],
      [200_079, 200_076, 'oops'],
      [400_079, 400_075, 'oops'],
    ])
    recording.close()
  })

  test('a line that never ends is refused by the thread that meets it, and leaves nothing behind', async () => {
    const root = mkdtempSync(join(folder, 'recordings-'))
    const path = source(`${csv}${csv.split('\n').slice(1).join('\n')}${'x'.repeat(12 << 20)}\n`)
    await expect(importRecording(path, root, { threads: 2 })).rejects.toThrow(/no line ends within 2 MB/)
    expect(readdirSync(root)).toEqual([])
  })

  test('gzip, .npy and raw float32 give the same samples', async () => {
    const npy = join(folder, 'same.npy')
    const { recording } = await imported(source(csv))
    await exportSpan(recording, npy, { format: 'npy' })
    const raw = new Uint8Array(expected.buffer)
    for (const [path, options] of [
      [source(gzipSync(csv), 'csv.gz'), {}],
      [npy, {}],
      [source(raw, 'f32'), { read: { rate_Hz: 1000 } }],
      [source(gzipSync(raw), 'raw.gz'), { read: { rate_Hz: 1000 } }],
    ] as const) {
      const other = await imported(path, options)
      expect(readCurrent(other.recording, 0, SAMPLES)).toEqual(expected)
      expect(other.recording.header).toMatchObject({ even: true, flaws: [] })
      expect(spanStatistics(other.recording).charge_C).toBeCloseTo(spanStatistics(recording).charge_C, 9)
      other.recording.close()
    }
    recording.close()
  })

  test('the same source is not read again; a changed one is', async () => {
    const path = source(csv)
    const { recording, root, reused } = await imported(path)
    expect(reused).toBe(false)
    const again = await importRecording(path, root)
    expect(again.reused).toBe(true)
    expect(spanStatistics(again.recording)).toEqual(spanStatistics(recording))
    utimesSync(path, 1, 1)
    expect((await importRecording(path, root)).reused).toBe(false)
    expect((await importRecording(path, root, { read: { currentUnit: 'mA' } })).reused).toBe(false)
    expect(readdirSync(root)).toHaveLength(3)
  })

  test('a source that was renamed goes by its new name', async () => {
    const path = source(csv)
    const { recording, root } = await imported(path)
    expect(recording.header.source.name).toBe(basename(path))
    const renamed = join(folder, 'renamed.csv')
    renameSync(path, renamed)
    const again = await importRecording(renamed, root)
    expect(again.reused).toBe(true)
    expect(again.recording.header.source).toEqual({ ...recording.header.source, name: 'renamed.csv' })
    for (const opened of [recording, again.recording]) opened.close()
  })

  test('an aborted import leaves nothing behind', async () => {
    for (const threads of [0, 2]) {
      const path = source(csv.repeat(2))
      const root = mkdtempSync(join(folder, 'recordings-'))
      const stop = new AbortController()
      const options = { signal: stop.signal, threads, onProgress: () => stop.abort(new Error('enough')) }
      await expect(importRecording(path, root, options)).rejects.toThrow('enough')
      expect(readdirSync(root)).toEqual([])
    }
    const zipped = source(gzipSync(csv), 'gz')
    const root = mkdtempSync(join(folder, 'recordings-'))
    await expect(
      importRecording(zipped, root, { signal: AbortSignal.abort(new Error('enough')) }),
    ).rejects.toThrow('enough')
    expect(readdirSync(root)).toEqual([])
  })

  test('what a killed import left is cleared by the next one', async () => {
    const root = mkdtempSync(join(folder, 'recordings-'))
    const gone = spawnSync(process.execPath, ['-e', '']).pid
    mkdirSync(join(root, `.partial-${gone}-x`))
    mkdirSync(join(root, `.partial-${process.pid}-x`))
    await importRecording(source(csv.slice(0, 5000)), root)
    expect(readdirSync(root).filter((name) => name.startsWith('.'))).toEqual([`.partial-${process.pid}-x`])
  })

  test.each<[string, string | Uint8Array, RegExp]>([
    ['an empty file', '', /empty/],
    ['words', 'hello\nworld\n', /no line of numbers/],
    ['a cut-off gzip', gzipSync(csv).subarray(0, 5000), /unexpected end of file/],
  ])('%s is refused and leaves nothing behind', async (_name, content, message) => {
    const root = mkdtempSync(join(folder, 'recordings-'))
    await expect(importRecording(source(content), root)).rejects.toThrow(message)
    expect(readdirSync(root)).toEqual([])
  })

  test('strict reading refuses a source with a flaw, and names it', async () => {
    const path = source('time_s,current_A\n0,1\n1,x\n2,3\n3,4\n')
    const { recording, root } = await imported(path)
    expect(recording.header.flaws).toHaveLength(2)
    await expect(importRecording(path, root, { strict: true })).rejects.toThrow(/damaged-line \(1\)/)
    await expect(imported(path, { strict: true })).rejects.toThrow(/strict reading refuses/)
  })

  test('a folder that is no recording, or of another format, is refused', async () => {
    expect(() => openRecording(folder)).toThrow(/no recording/)
    const { recording } = await imported(source(csv.slice(0, 5000)))
    recording.close()
    const header = join(recording.folder, 'recording.json')
    writeFileSync(header, readFileSync(header, 'utf8').replace('"format": 1', '"format": 9'))
    expect(() => openRecording(recording.folder)).toThrow(/format 9/)
  })
})

describe('export', () => {
  test('a CSV export is read back as the same samples', async () => {
    const { recording } = await imported(source(csv))
    const path = join(folder, 'out.csv')
    const span = { from_s: 30.0005, to_s: 130 }
    expect(await exportSpan(recording, path, { format: 'csv', span })).toBe(99_999)
    const back = await imported(path)
    expect(readCurrent(back.recording, 0, 99_999)).toEqual(expected.subarray(30_001, 130_000))
    expect(readVoltage(back.recording, 0, 2)).toEqual(Float32Array.of(3.3, 3.3))
    expect(viewAt(back.recording, 50).max_A).toEqual(viewAt(recording, 50, span).max_A)
  })

  test('a Parquet export is read by an independent reader, missing values as null', async () => {
    const { recording } = await imported(source('time_s,current_A\n0,1\n1,\n2,3\n'))
    const path = join(folder, 'out.parquet')
    await exportSpan(recording, path, { format: 'parquet' })
    expect(await parquetReadObjects({ file: await asyncBufferFromFile(path) })).toEqual([
      { time_s: 0, current_A: 1 },
      { time_s: 1, current_A: null },
      { time_s: 2, current_A: 3 },
    ])
    const long = await imported(source(csv))
    await exportSpan(long.recording, path, { format: 'parquet' })
    const objects = await parquetReadObjects({
      file: await asyncBufferFromFile(path),
      rowStart: 131_000,
      rowEnd: 131_200,
    })
    expect(objects.map((row) => row.current_A)).toEqual([...expected.subarray(131_000, 131_200)])
  })

  test('an aborted export leaves no file', async () => {
    const { recording } = await imported(source(csv))
    const path = join(folder, 'never.csv')
    const signal = AbortSignal.abort(new Error('enough'))
    await expect(exportSpan(recording, path, { format: 'csv', signal })).rejects.toThrow('enough')
    expect(readdirSync(folder).filter((name) => name.startsWith('never'))).toEqual([])
  })
})
