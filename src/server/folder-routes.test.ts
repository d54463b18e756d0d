import { cpSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { type Bench, benchWith } from '../../test/workbench-app.ts'
import type { Folder } from '../api/files.ts'
import { importRecording } from '../store/import-recording.ts'

let bench: Bench
afterEach(() => bench.close())
const folderOf = async () => (await (await bench.ask('/api/folder')).json()) as Folder

const CURRENT = `time,current\n${Array.from({ length: 50 }, (_, i) => `${i / 10},0.01`).join('\n')}\n`

describe('the folder', () => {
  it('lists what can be opened, told apart by name and content, one folder deep', async () => {
    bench = benchWith({
      'broken.outpost.yaml': 'title: "unclosed\n  - : [',
      'untitled.outpost.yml': 'overwinter: 1\n',
      'sub/nested.outpost.yaml': 'title: Nested\n',
      'sub/deep/too-deep.outpost.yaml': 'title: Too deep\n',
      '.git/hidden.outpost.yaml': 'title: Hidden\n',
      'node_modules/package.outpost.yaml': 'title: A package\n',
      'meter.yaml': 'instrument: meter\nranges: []\n',
      'shelf.yaml': '# what there is\ncells: []\n',
      'other.yaml': 'services: {}\n',
      'trace.csv': CURRENT,
      'trace.npy.gz': 'packed',
      'raw.f32': 'floats',
      'year.epw': 'LOCATION,Somewhere\n',
      'hours.csv': '# hourly\ntime,ghi,temperature\n',
      'table.csv': '"1","Somewhere"\n"Date (MM/DD/YYYY)","Time (HH:MM)"\n',
      'notes.txt': 'nothing',
    })
    const folder = await folderOf()
    expect(folder).toMatchObject({
      path: bench.folder,
      isScratch: false,
      threads: 1,
      outposts: [
        { file: 'broken.outpost.yaml', title: null },
        { file: 'gauge.outpost.yaml', title: 'Water over the ford' },
        { file: 'untitled.outpost.yml', title: null },
        { file: 'sub/nested.outpost.yaml', title: 'Nested' },
      ],
      instruments: ['meter.yaml'],
      partsLists: ['shelf.yaml'],
      weather: ['hours.csv', 'table.csv', 'year.epw'],
    })
    expect(folder.recordings).toEqual([
      { file: 'raw.f32', bytes: 6, kept: false },
      { file: 'trace.csv', bytes: CURRENT.length, kept: false },
      { file: 'trace.npy.gz', bytes: 6, kept: false },
    ])
    expect(folder.places.length).toBeGreaterThan(10)
  })

  it('knows the examples', async () => {
    bench = benchWith()
    cpSync('examples', bench.folder, { recursive: true })
    const { outposts, recordings, instruments, partsLists } = await folderOf()
    expect(outposts.every(({ title }) => title !== null)).toBe(true)
    expect(recordings.map(({ file }) => file)).toEqual([
      'recordings/snow-depth-build-41.csv.gz',
      'recordings/snow-depth-build-42.csv.gz',
    ])
    expect(instruments).toEqual(['instruments/hand-multimeter.yaml', 'instruments/shunt-amplifier.yaml'])
    expect(partsLists).toEqual(['parts.yaml'])
  })

  it('says which recordings are imported already, until they change', async () => {
    bench = benchWith({ 'trace.csv': CURRENT })
    const { recording } = await importRecording(
      join(bench.folder, 'trace.csv'),
      join(bench.folder, '.overwinter/recordings'),
    )
    recording.close()
    expect((await folderOf()).recordings).toMatchObject([{ file: 'trace.csv', kept: true }])
    writeFileSync(join(bench.folder, 'trace.csv'), `${CURRENT}5,0.01\n`)
    expect((await folderOf()).recordings).toMatchObject([{ file: 'trace.csv', kept: false }])
  })

  it('looks again at a file that was written', async () => {
    bench = benchWith()
    await folderOf()
    writeFileSync(join(bench.folder, 'gauge.outpost.yaml'), 'title: Renamed\n')
    expect((await folderOf()).outposts).toEqual([{ file: 'gauge.outpost.yaml', title: 'Renamed' }])
  })

  it('leaves out links that lead outside, and bears what cannot be read', async () => {
    bench = benchWith({
      'deep.outpost.yaml': '['.repeat(50_000),
      'aliases.outpost.yaml': 'title: *nowhere\n',
    })
    symlinkSync('../secret.csv', join(bench.folder, 'out.csv'))
    symlinkSync('gauge.outpost.yaml', join(bench.folder, 'link.outpost.yaml'))
    symlinkSync('nowhere.csv', join(bench.folder, 'dangling.csv'))
    mkdirSync(join(bench.folder, 'folder.csv'))
    const { outposts, recordings } = await folderOf()
    expect(outposts.map(({ file, title }) => [file, title])).toEqual([
      ['aliases.outpost.yaml', null],
      ['deep.outpost.yaml', null],
      ['gauge.outpost.yaml', 'Water over the ford'],
      ['link.outpost.yaml', 'Water over the ford'],
    ])
    expect(recordings).toEqual([])
    expect(bench.faults).toEqual([])
  })

  it('stays bounded in a folder of very many files', async () => {
    bench = benchWith()
    for (let i = 0; i < 3000; i++) writeFileSync(join(bench.folder, `a${i}.csv`), '')
    const { outposts, recordings } = await folderOf()
    expect(outposts).toHaveLength(1)
    expect(recordings.length).toBeLessThan(3000)
  })
})
