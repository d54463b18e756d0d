/** Where live lines come from: a serial port, set up by `stty` (POSIX), or standard input. */
import { execFile } from 'node:child_process'
import { closeSync, constants, openSync } from 'node:fs'
import type { Readable } from 'node:stream'
import { isatty, ReadStream } from 'node:tty'
import { promisify } from 'node:util'
import { Refusal } from './refusal.ts'

export interface LiveSource {
  readonly name: string
  readonly stream: Readable
  /** It was under way before anyone listened, so its first line is most likely cut. */
  readonly beginsMidLine: boolean
  readonly close: () => void
}

export function standardInput(): LiveSource {
  const { stdin } = process
  return { name: 'standard input', stream: stdin, beginsMidLine: false, close: () => stdin.destroy() }
}

/** Throws a Refusal where there is no such port, or it does not take the speed. */
export async function serialPort(path: string, baud: number): Promise<LiveSource> {
  const file = openPort(path)
  try {
    if (!isatty(file)) throw new Refusal(`${path} is no serial port.`)
    await setUp(path, baud)
    const stream = new ReadStream(file)
    return { name: path, stream, beginsMidLine: true, close: () => stream.destroy() }
  } catch (error) {
    closeSync(file)
    throw error
  }
}

/** Not waiting for a modem's carrier, and not becoming the terminal that signals come from. */
function openPort(path: string): number {
  try {
    return openSync(path, constants.O_RDONLY | constants.O_NONBLOCK | constants.O_NOCTTY)
  } catch (error) {
    const code = String((error as NodeJS.ErrnoException).code)
    const why =
      { ENOENT: 'there is no such port', EACCES: 'you may not read it', EBUSY: 'another program has it' }[
        code
      ] ?? code
    throw new Refusal(`${path} cannot be opened: ${why}.`)
  }
}

async function setUp(path: string, baud: number): Promise<void> {
  const which = process.platform === 'darwin' ? '-f' : '-F'
  try {
    await promisify(execFile)('stty', [
      which,
      path,
      String(baud),
      'raw',
      '-echo',
      'cs8',
      '-parenb',
      '-cstopb',
    ])
  } catch (error) {
    const { code, stderr } = error as { code?: unknown; stderr?: string }
    throw new Refusal(
      code === 'ENOENT'
        ? 'There is no stty here to set the port up: pipe its lines into "overwinter record -" instead.'
        : `${path} cannot be set to ${baud} baud: ${stderr?.trim() || String(code)}`,
    )
  }
}
