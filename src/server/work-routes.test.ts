import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { allTold, type Bench, benchWith, GAUGE, toldBy } from '../../test/workbench-app.ts'
import type { Refused } from '../api/files.ts'
import type { Answers, Asked, Told, Work } from '../api/work.ts'
import { forecastFile } from '../workbench/forecast.ts'

const PANEL = readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8')
const OF_GAUGE = { file: 'gauge.outpost.yaml', text: GAUGE, variant: null, seed: 1 }
let bench: Bench
beforeEach(() => {
  bench = benchWith({ 'parts.yaml': readFileSync('examples/parts.yaml'), 'sub/empty.epw': '' })
})
afterEach(() => bench.close())

const ask = (asked: object) => bench.send('POST', '/api/work', asked)

/** The answer, or why there is none. */
async function answered<W extends Work>(asked: Extract<Asked, { work: W }>): Promise<Answers[W]> {
  const response = await ask(asked)
  expect(response.status).toBe(200)
  expect(response.headers.get('content-type')).toMatch('text/event-stream')
  const told = (await allTold(response)) as Told<W>[]
  const last = told.at(-1)!
  if (last.event !== 'done') throw new Error(JSON.stringify(last))
  expect(told.slice(0, -1).every(({ event }) => event === 'progress')).toBe(true)
  return last.answer
}

const refused = async (asked: object) => (await allTold(await ask(asked))).at(-1)

describe('long work', () => {
  it('forecasts the text that was sent, as the command forecasts the file', async () => {
    const asked = { work: 'forecast', ...OF_GAUGE, runs: 20, years: 2 } as const
    const answer = await answered<'forecast'>(asked)
    const choices = {
      runs: 20,
      years: 2,
      seed: 1,
      stepsPerHour: 1,
      weather: null,
      variant: null,
      colour: false,
    }
    const wanted = await forecastFile(
      join(bench.folder, OF_GAUGE.file),
      { ...choices, calendarYear: 2026 },
      { threads: 1 },
    )
    expect(answer).toEqual(JSON.parse(JSON.stringify(wanted)))
    const text = GAUGE.replace(/^title: .*$/m, 'title: Not saved yet')
    const unsaved = await answered<'forecast'>({ ...asked, file: 'sub/new.outpost.yaml', text })
    expect(unsaved.outlook.title).toBe('Not saved yet')
    expect(unsaved.file).toBe('new.outpost.yaml')
  })

  it('tells its progress', async () => {
    const told = await allTold(await ask({ work: 'forecast', ...OF_GAUGE, runs: 40, years: 2 }))
    const steps = told.flatMap((each) => (each.event === 'progress' ? [each] : []))
    expect(steps.length).toBeGreaterThan(0)
    for (const { done, of } of steps) expect([of, done <= of]).toEqual([40, true])
    expect(steps.map(({ done }) => done)).toEqual(steps.map(({ done }) => done).sort((a, b) => a - b))
  })

  it('hands over', async () => {
    const asked = { work: 'handoff', ...OF_GAUGE, prefix: 'Ford', bcd: false, clock: 'utc' } as const
    const { files } = await answered<'handoff'>(asked)
    expect(Object.keys(files)).toEqual(['ford.h', 'ford.c', 'ford.json', 'ford-before-rest.md'])
    expect(JSON.parse(files['ford.json']).clock).toBe('UTC')
  })

  it.each([
    ['variants', {}],
    ['matters', {}],
    ['size', { wanted: 0.9, partsFile: 'parts.yaml', objective: 'weight' }],
    ['thrift', { intervals_s: [900, 3600], mostRows: 2 }],
  ])('begins %s, and can be cancelled', async (work, asked) => {
    const told = toldBy(await ask({ work, ...OF_GAUGE, text: PANEL, ...asked }))
    expect((await told.next()).value).toMatchObject({ event: 'progress', done: expect.any(Number) })
    await told.return(undefined)
  })

  it('says what is wrong with the design, with its place, and no colour', async () => {
    const told = await refused({ work: 'forecast', ...OF_GAUGE, text: GAUGE.replace('wake:', 'wakes:') })
    expect(told).toMatchObject({ event: 'refused', isOurs: false })
    const { why } = told as Extract<Told, { event: 'refused' }>
    expect(why).toMatch(/gauge\.outpost\.yaml:\d+:\d+/)
    expect(why).toContain('wakes')
    expect(why).not.toContain('\u001b')
    expect(why).not.toContain(bench.folder)
  })

  it.each([
    ['an unknown variant', { work: 'forecast', variant: 'none such' }, /no variant "none such"/],
    [
      'variants where there are none',
      { work: 'variants', text: GAUGE.replace(/^variants:.*/ms, '') },
      /no variants to compare/,
    ],
    ['a thrift table without a panel', { work: 'thrift', intervals_s: null, mostRows: 3 }, /no panel/],
    [
      'a prefix that C does not know',
      { work: 'handoff', prefix: '9', bcd: false, clock: 'local' },
      /cannot begin names in C/,
    ],
    [
      'parts from elsewhere',
      { work: 'size', wanted: null, objective: 'price', partsFile: '../secret.yaml' },
      /outside the folder/,
    ],
    [
      'parts that are not there',
      { work: 'size', wanted: null, objective: 'price', partsFile: 'none.yaml' },
      /no file none\.yaml/,
    ],
    [
      'a column that the parts do not have',
      { work: 'size', text: PANEL, wanted: null, objective: 'charm', partsFile: 'parts.yaml' },
      /no column "charm"/,
    ],
    ['a name outside the folder', { work: 'matters', file: '../gauge.outpost.yaml' }, /outside the folder/],
  ])('refuses %s', async (_, asked, why) => {
    expect(await refused({ ...OF_GAUGE, ...asked })).toMatchObject({
      event: 'refused',
      why: expect.stringMatching(why),
      isOurs: false,
    })
    expect(bench.faults).toEqual([])
  })

  it.each(['../secret.csv', '/etc/hostname', '.git/config', 'up/secret.csv'])(
    'reads no weather from %s',
    async (name) => {
      writeFileSync(join(bench.folder, '../secret.csv'), 'time,ghi\nleaked')
      const text = PANEL.replace(/^( *)weather:.*$(\n\1 +.*$)*/m, `$1weather: { file: "${name}" }`)
      expect(text).not.toBe(PANEL)
      const told = await refused({ work: 'forecast', ...OF_GAUGE, text })
      expect(told).toMatchObject({ event: 'refused', isOurs: false })
      expect(JSON.stringify(told)).not.toContain('leaked')
    },
  )

  it.each<[string, unknown, RegExp]>([
    ['nothing', {}, /work/],
    ['no work that there is', { work: 'dig' }, /work/],
    ['the root of all objects', { work: '__proto__' }, /work/],
    ['no outpost', { work: 'forecast' }, /file/],
    ['half a seed', { work: 'forecast', ...OF_GAUGE, seed: 1.5 }, /seed/],
    ['a seed below zero', { work: 'forecast', ...OF_GAUGE, seed: -1 }, /seed/],
    ['too many years', { work: 'forecast', ...OF_GAUGE, years: 61 }, /years/],
    ['too many runs', { work: 'forecast', ...OF_GAUGE, runs: 1e9 }, /runs/],
    ['something else besides', { work: 'forecast', ...OF_GAUGE, luck: 7 }, /luck/],
    ['no intervals', { work: 'thrift', ...OF_GAUGE, intervals_s: [], mostRows: 3 }, /intervals_s/],
    [
      'an interval of nothing',
      { work: 'thrift', ...OF_GAUGE, intervals_s: [0], mostRows: 3 },
      /intervals_s\.0/,
    ],
    ['certainty', { work: 'size', ...OF_GAUGE, wanted: 1, partsFile: null, objective: 'price' }, /wanted/],
    ['a list', [], /The body/],
    ['null', null, /The body/],
  ])('is refused at once where it asks for %s', async (_, asked, where) => {
    const response = await bench.send('POST', '/api/work', asked)
    expect(response.status).toBe(422)
    expect(((await response.json()) as Refused).refused).toMatch(where)
  })

  it('ends when nobody listens any more', async () => {
    const response = await ask({ work: 'forecast', ...OF_GAUGE, runs: 100_000, years: 1 })
    const told = toldBy(response)
    expect((await told.next()).value.event).toBe('progress')
    await told.return(undefined)
    // Its place is free: as many as may work at once can begin.
    const more = await Promise.all(
      [1, 2, 3].map(() => ask({ work: 'forecast', ...OF_GAUGE, runs: 10, years: 1 })),
    )
    for (const each of more) expect((await allTold(each)).at(-1)!.event).toBe('done')
  })

  it('waits for its turn behind others, says so, and leaves the queue when it is cancelled', async () => {
    const long = { work: 'forecast', ...OF_GAUGE, runs: 100_000, years: 1 }
    const first = await Promise.all([1, 2, 3].map(async () => toldBy(await ask(long))))
    for (const each of first)
      expect((await each.next()).value).toMatchObject({ event: 'progress', of: 100_000 })
    const [cancelled, waiting] = [toldBy(await ask(long)), toldBy(await ask({ ...long, runs: 10 }))]
    expect((await cancelled.next()).value).toEqual({ event: 'progress', done: 0, of: 1 })
    expect((await waiting.next()).value).toEqual({ event: 'progress', done: 0, of: 1 })
    await cancelled.return(undefined)
    await first[1].return(undefined)
    const rest = []
    for await (const event of waiting) rest.push(event)
    expect(rest.at(-1)!.event).toBe('done')
    await Promise.all([first[0].return(undefined), first[2].return(undefined)])
  })

  it('is told of when the server closes', async () => {
    const told = toldBy(await ask({ work: 'forecast', ...OF_GAUGE, runs: 100_000, years: 1 }))
    await told.next()
    bench.close()
    const rest = []
    for await (const event of told) rest.push(event)
    expect(rest.at(-1)).toMatchObject({ event: 'refused', isOurs: false })
  })
})
