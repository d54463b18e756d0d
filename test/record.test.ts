/** Recording live from a real pseudo-terminal, which Python opens, and from a pipe. */
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import type { Recorded } from '../src/workbench/record.ts'
import { hasTerminals, onTerminal } from './on-terminal.ts'
import { MAIN, overwinterIn, type Ran } from './run-cli.ts'
import { openPort, type Port } from './serial-port.ts'

const folder = mkdtempSync(join(tmpdir(), 'overwinter-record-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const path = (name: string) => join(folder, name)

function start(...args: string[]) {
  const child = spawn(process.execPath, [MAIN, ...args], { cwd: folder })
  const ran = { out: '', err: '' }
  child.stdout.on('data', (chunk) => {
    ran.out += chunk
  })
  child.stderr.on('data', (chunk) => {
    ran.err += chunk
  })
  const done = once(child, 'close').then(([code]): Ran => ({ code: code as number | null, ...ran }))
  return { child, done }
}

/** Waits until the file holds what was sent, so that nothing here depends on how fast a machine is. */
async function untilHolds(file: string, text: string): Promise<void> {
  while (!existsSync(file) || !readFileSync(file, 'utf8').includes(text))
    await new Promise((r) => setTimeout(r, 20))
}

/** Repeats a line until it arrives: bytes sent before the port is opened and set up may be thrown away. */
async function untilListening(port: Port, file: string): Promise<void> {
  while (!existsSync(file) || readFileSync(file, 'utf8') === '') {
    port.say('# listening\n')
    await new Promise((r) => setTimeout(r, 50))
  }
}

const lines = (from: number, to: number): string =>
  Array.from({ length: to - from }, (_, k) => {
    const i = from + k
    return `${(i / 1000).toFixed(3)},${Math.floor(i / 100) % 2 === 0 ? '0.0001' : '0.02'},3.300\n`
  }).join('')

const recorded = ({ out }: Ran) => JSON.parse(out) as Recorded

describe.skipIf(!hasTerminals)('overwinter record from a serial port', () => {
  it('keeps every whole line when the cable is pulled, says so, and leaves with 1', async () => {
    const port = await openPort()
    const out = path('pulled.csv')
    const { done } = start('record', '--serial', port.name, '--baud', '115200', '--out', out, '--json')
    await untilListening(port, out)
    port.say(`${lines(0, 2000)}2.000,0.0`)
    await untilHolds(out, '1.999,')
    port.pull()
    const ran = await done
    expect(ran.code).toBe(1)
    expect(recorded(ran)).toMatchObject({ ending: 'pulled', source: port.name, problem: null })
    const text = readFileSync(out, 'utf8')
    expect(text.replaceAll('# listening\n', '')).toBe(lines(0, 2000))
    const { picture } = recorded(ran)
    expect(picture).toMatchObject({ samples: 2000, lostSamples: 0, damagedLines: 0 })
    // 10 of 20 stretches of 0.1 s at each level; the last sample has no end yet.
    expect(picture.charge_C).toBeCloseTo(1 * 0.0001 + 0.999 * 0.02, 9)
    expect(overwinterIn(folder, 'read', out, '--json').code).toBe(0)
  })

  it('stops on Ctrl-C with whole lines, and counts samples and lines that were lost', async () => {
    const port = await openPort()
    const out = path('stopped.csv')
    const { child, done } = start('record', '--serial', port.name, '--out', out, '--json')
    await untilListening(port, out)
    port.say(`${lines(0, 500)}~~overrun~~\n${lines(520, 900)}0.900,0.0`)
    await untilHolds(out, '0.899,')
    child.kill('SIGINT')
    const ran = await done
    port.pull()
    expect(ran).toMatchObject({ code: 0, err: '' })
    const { ending, picture } = recorded(ran)
    expect({ ending, ...picture }).toMatchObject({
      ending: 'stopped',
      samples: 880,
      lostSamples: 20,
      damagedLines: 1,
    })
    expect(readFileSync(out, 'utf8').endsWith('0.899,0.0001,3.300\n')).toBe(true)
  })

  it('draws what comes, where a person looks on', async () => {
    const port = await openPort()
    const out = path('drawn.csv')
    const screen = onTerminal(folder, 'record', '--serial', port.name, '--out', out)
    await untilListening(port, out)
    port.say(lines(0, 1000))
    await screen.until(/mean 10\.0\d* mA, charge .*1000 samples/)
    expect(screen.shown()).toMatch(/[▁▂▃▄▅▆▇█]+▏ last/)
    expect(screen.shown()).toMatch(/now 20 mA for 0\.1 s: state 2 of 2/)
    port.pull()
    expect(await screen.done).toBe(1)
    expect(screen.shown()).toContain('is gone')
  })

  it('says in one line what is no port', () => {
    expect(overwinterIn(folder, 'record', '--serial', 'nowhere', '--out', 'x.csv')).toMatchObject({
      code: 2,
      err: 'nowhere cannot be opened: there is no such port.\n',
    })
    writeFileSync(path('plain'), '')
    expect(overwinterIn(folder, 'record', '--serial', 'plain', '--out', 'x.csv').err).toBe(
      'plain is no serial port.\n',
    )
    expect(existsSync(path('x.csv'))).toBe(false)
  })
})

describe('overwinter record from standard input', () => {
  const piped = (input: string, ...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, 'record', '-', ...args], {
      cwd: folder,
      input,
      encoding: 'utf8',
    })
    return { code: status, out: stdout, err: stderr }
  }

  it.each([
    ['comma', lines(0, 300)],
    [
      'semicolon, decimal comma and header',
      `t/ms;I/µA\n${Array.from({ length: 300 }, (_, k) => `${k},0;${k % 7},5\n`).join('')}`,
    ],
    ['a last line without its end', lines(0, 300).trimEnd()],
  ])('takes it to its end: %s', (name, text) => {
    const out = path(`${name.slice(0, 5)}.csv`)
    const ran = piped(text, '--out', out, '--json')
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(recorded(ran)).toMatchObject({ ending: 'ended', cut: false, picture: { samples: 300 } })
    expect(readFileSync(out, 'utf8').trimEnd()).toBe(text.trimEnd())
  })

  it('takes currents alone at a rate', () => {
    const ran = piped('0.01\n'.repeat(50), '--out', path('alone.csv'), '--rate', '10 Hz', '--json')
    expect(recorded(ran).picture.charge_C).toBeCloseTo(4.9 * 0.01, 7)
  })

  it('keeps lines that it cannot read, and says so', () => {
    const ran = piped('hello\n'.repeat(20), '--out', path('words.csv'))
    expect(ran.code).toBe(1)
    expect(ran.out).toContain('cannot be read: no line of numbers')
    expect(readFileSync(path('words.csv'), 'utf8')).toBe('hello\n'.repeat(20))
  })

  it('never writes over a file', () => {
    writeFileSync(path('there.csv'), 'mine')
    const { code, err } = piped(lines(0, 10), '--out', path('there.csv'))
    expect(code).toBe(2)
    expect(err).toContain('exists already')
    expect(readFileSync(path('there.csv'), 'utf8')).toBe('mine')
  })
})
