/** Long work of the built server, in threads of its own. */
import { cpSync, existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as passing } from 'node:timers/promises'
import { describe, expect, it } from 'vitest'
import type { Told } from '../src/api/work.ts'
import { overwinterIn } from './run-cli.ts'
import { ENDLESS, folder, folderOf, quiet, type Workbench, work, workbench } from './serving.ts'
import { allTold, toldBy } from './workbench-app.ts'

describe('long work of the built server', () => {
  it('tells its progress and its answer, the same as the command gives', async () => {
    const bench = await workbench(quiet)
    const told = await allTold(await work(bench.address, { ...ENDLESS, runs: 30, years: 2 }))
    expect(told[0]).toMatchObject({ event: 'progress', of: 30 })
    const last = told.at(-1) as Extract<Told<'forecast'>, { event: 'done' }>
    const command = overwinterIn(
      folder,
      'forecast',
      'hut.outpost.yaml',
      '--runs',
      '30',
      '--years',
      '2',
      '--json',
    )
    expect(last.answer).toEqual(JSON.parse(command.out))
  }, 180_000)

  it('compares, sizes, and says what matters, on threads', async () => {
    const bench = await workbench(quiet)
    const { runs: _, years: __, ...outpost } = ENDLESS
    cpSync('examples/parts.yaml', join(folder, 'parts.yaml'))
    for (const asked of [
      { work: 'variants' },
      { work: 'size', wanted: null, partsFile: 'parts.yaml', objective: 'price' },
      { work: 'matters' },
      { work: 'thrift', intervals_s: null, mostRows: 3 },
    ]) {
      const told = toldBy(await work(bench.address, { ...outpost, ...asked }))
      expect((await told.next()).value).toMatchObject({ event: 'progress' })
      await told.return(undefined)
    }
    const handoff = { ...outpost, work: 'handoff', prefix: 'tide', bcd: true, clock: 'local' }
    expect((await allTold(await work(bench.address, handoff))).at(-1)).toMatchObject({ event: 'done' })
  }, 180_000)

  it('leaves the server answering, and its threads end when the request is closed', async () => {
    const bench = await workbench(quiet)
    await folderOf(bench)
    const before = threadsOf(bench)
    const leaving = new AbortController()
    const told = toldBy(await work(bench.address, ENDLESS, leaving.signal))
    expect((await told.next()).value).toMatchObject({ event: 'progress' })
    expect((await folderOf(bench)).outposts).toHaveLength(1)
    if (before !== null) expect(threadsOf(bench)).toBeGreaterThan(before)
    leaving.abort()
    while (before !== null && threadsOf(bench)! > before) await passing(20)
    expect((await folderOf(bench)).outposts).toHaveLength(1)
    expect(bench.err()).toBe('')
  })

  it('is told of, and ended, when the server stops', async () => {
    const bench = await workbench(quiet)
    const told = toldBy(await work(bench.address, ENDLESS))
    await told.next()
    const stopped = bench.stop('SIGTERM')
    let last: Told | null = null
    for await (const each of told) last = each
    expect(last).toMatchObject({ event: 'refused', isOurs: false })
    expect(await stopped).toBe(143)
    expect(bench.err()).toBe('')
  })
})
/** Null where the system does not tell. */
function threadsOf({ pid }: Workbench): number | null {
  const tasks = `/proc/${pid}/task`
  return existsSync(tasks) ? readdirSync(tasks).length : null
}
