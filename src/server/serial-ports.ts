/** The serial ports that the machine has, and the fence around what may be opened as one. */
import { readdir } from 'node:fs/promises'
import { posix } from 'node:path'
import { Hono } from 'hono'
import type { Ports } from '../api/bench.ts'
import { Refused } from './refused.ts'

const DEVICES = '/dev'
/** As Linux, the BSDs and macOS name what a cable or board brings along, from common practice. */
const NAMES = /^(ttyUSB\d|ttyACM\d|ttyAMA\d|ttyU\d|rfcomm\d|cu\.(usb|wch|SLAB))/

export function portsRoutes(): Hono {
  return new Hono().get('/', async (c) => c.json({ ports: await portsNow() } satisfies Ports))
}

async function portsNow(): Promise<string[]> {
  const names = await readdir(DEVICES).catch(() => [])
  return names
    .filter((name) => NAMES.test(name))
    .sort()
    .map((name) => `${DEVICES}/${name}`)
}

/** Throws Refused for what is no name of a device. */
export function checkedPort(port: string): string {
  const path = posix.normalize(port)
  if (path !== port || !path.startsWith(`${DEVICES}/`) || path.includes('\0'))
    throw new Refused(422, `${port} is no serial port: give one under ${DEVICES}, as in /dev/ttyUSB0.`)
  return path
}
