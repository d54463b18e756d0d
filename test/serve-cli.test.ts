/** `overwinter` and `overwinter serve`, as a user starts them. */
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { delimiter, join } from 'node:path'
import { setTimeout as passing } from 'node:timers/promises'
import { describe, expect, it } from 'vitest'
import type { FileChanged } from '../src/api/files.ts'
import { MAIN, overwinterIn } from './run-cli.ts'
import { folder, folderOf, HUT, quiet, root, workbench } from './serving.ts'
import { toldBy } from './workbench-app.ts'

describe('overwinter serve', () => {
  it('opens the folder that one is in, says the address, and stops at Ctrl-C', async () => {
    const bench = await workbench(quiet)
    expect(bench.address).toMatch(/^http:\/\/localhost:\d+$/)
    expect(await folderOf(bench)).toMatchObject({
      path: folder,
      isScratch: false,
      outposts: [{ file: 'hut.outpost.yaml', title: 'Tide hut in the fjord' }],
    })
    expect(await bench.stop()).toBe(130)
    expect(bench.shown()).toMatch(/Stopped\.\n$/)
    expect(bench.err()).toBe('')
    await expect(fetch(bench.address)).rejects.toThrow()
  })

  it('is what the command alone does', async () => {
    const bench = await workbench(['--no-open', '--port', '0', '--folder', folder], { cwd: root })
    expect((await folderOf(bench)).path).toBe(folder)
    expect(await bench.stop('SIGTERM')).toBe(143)
  })

  it('takes the next free port where the one it is told is used', async () => {
    const port = Number(new URL((await workbench(quiet)).address).port)
    const second = await workbench([...quiet.slice(0, -1), String(port)])
    expect(Number(new URL(second.address).port)).toBeGreaterThan(port)
    expect(second.shown()).toContain(`Port ${port} is used`)
  })

  it('opens a copy of the examples where there are no outposts, and removes it if nothing was changed', async () => {
    const empty = join(root, 'empty')
    mkdirSync(empty)
    const bench = await workbench(quiet, { cwd: empty })
    const { path, isScratch, outposts } = await folderOf(bench)
    expect(isScratch).toBe(true)
    expect(outposts).toHaveLength(
      readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml')).length,
    )
    expect(bench.shown()).toContain(`There are no outposts in ${empty}.`)
    expect(bench.shown()).toContain(`copied to ${path}`)
    await bench.stop()
    expect(existsSync(path)).toBe(false)
    expect(readdirSync(empty)).toEqual([])
  })

  it('keeps the copy where something was changed, and says where', async () => {
    const bench = await workbench([...quiet, '--examples'])
    const { path } = await folderOf(bench)
    writeFileSync(join(path, 'mine.outpost.yaml'), HUT)
    await bench.stop()
    expect(readFileSync(join(path, 'mine.outpost.yaml'), 'utf8')).toBe(HUT)
    expect(bench.shown()).toContain(`What you changed is kept in ${path}`)
  })

  it('opens an empty folder that was named, to begin there', async () => {
    const empty = join(root, 'empty')
    mkdirSync(empty)
    const bench = await workbench([...quiet, '--folder', empty])
    expect(await folderOf(bench)).toMatchObject({ path: empty, isScratch: false, outposts: [] })
  })

  it('tells of changes by other programs', async () => {
    const bench = await workbench(quiet)
    const heard = toldBy<FileChanged>(await fetch(`${bench.address}/api/events`))
    writeFileSync(join(folder, 'hut.outpost.yaml'), `${HUT}# more\n`)
    expect((await heard.next()).value.file).toBe('hut.outpost.yaml')
    // The open stream does not keep it from stopping.
    expect(await bench.stop()).toBe(130)
  })

  it.each([
    ['a folder that is not there', ['--folder', 'nowhere'], 'nowhere is no folder'],
    ['a file for a folder', ['--folder', MAIN], 'is no folder'],
    ['a port that is none', ['--port', '70000'], 'a port from 0 to 65535'],
    ['an address of another machine', ['--host', '192.0.2.7', '--token'], 'no such address'],
    ['an address for everyone without a token', ['--host', '0.0.0.0'], 'needs a token'],
    [
      'a token that could be guessed',
      ['--host', '0.0.0.0', '--token', 'secret'],
      '6 characters could be guessed',
    ],
  ])('refuses %s', (_, args, why) => {
    const { code, out, err } = overwinterIn(folder, 'serve', '--no-open', ...args)
    expect([code, out]).toEqual([2, ''])
    expect(err).toContain(why)
  })

  it('is not what a mistyped command does', () => {
    const { code, err } = overwinterIn(folder, 'forcast', 'hut.outpost.yaml')
    expect([code, err]).toEqual([2, expect.stringContaining('there is no command "forcast"')])
    expect(overwinterIn(folder, 'serve', '--help').out).toMatch(/^Usage: overwinter serve \[options\]\n/)
  })

  it('outside this machine answers only to whoever shows the token', async () => {
    const bench = await workbench([...quiet, '--host', '0.0.0.0', '--token', 'a-token-of-my-own'])
    // An address that the server itself answers at: it is opened in the browser.
    expect((await fetch(bench.address, { redirect: 'manual' })).status).toBe(303)
    const { port, search, hostname } = new URL(bench.address)
    expect(hostname).toBe('localhost')
    expect(search).toBe('?token=a-token-of-my-own')
    const here = `http://127.0.0.1:${port}`
    expect((await fetch(`${here}/api/folder`)).status).toBe(403)
    const shown = await fetch(`${here}/?token=a-token-of-my-own`, { redirect: 'manual' })
    expect(shown.status).toBe(303)
    const cookie = shown.headers.get('set-cookie')!.split(';')[0]
    expect((await fetch(`${here}/api/folder`, { headers: { cookie } })).status).toBe(200)
  })

  it('makes a token of its own where it is told to', async () => {
    const tokens = await Promise.all(
      [1, 2].map(
        async () => new URL((await workbench([...quiet, '--token'])).address).searchParams.get('token')!,
      ),
    )
    expect(tokens[0]).not.toBe(tokens[1])
    for (const token of tokens) expect(token.length).toBeGreaterThanOrEqual(16)
  })

  it('opens the browser unless it is told not to', async () => {
    const opened = join(root, 'opened')
    for (const name of ['xdg-open', 'open']) {
      writeFileSync(join(root, name), `#!/bin/sh\necho "$@" >> ${opened}\n`)
      chmodSync(join(root, name), 0o755)
    }
    const env = { PATH: `${root}${delimiter}${process.env.PATH}`, DISPLAY: ':0' }
    await workbench(['serve', '--port', '0', '--no-open'], { env })
    const bench = await workbench(['serve', '--port', '0'], { env })
    while (!existsSync(opened) || readFileSync(opened, 'utf8') === '') await passing(20)
    expect(readFileSync(opened, 'utf8')).toBe(`${bench.address}\n`)
  })

  it('stays open where there is no browser to open', async () => {
    const bench = await workbench(['serve', '--port', '0'], { env: { PATH: root, DISPLAY: ':0' } })
    expect((await folderOf(bench)).path).toBe(folder)
  })
})
