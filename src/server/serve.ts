/** Listens: on the port asked for or the next free one, until it is closed. */
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { Refusal } from '../workbench/refusal.ts'
import { appFor } from './app.ts'
import { addressesOf, hostsFor, inAddress, shownHosts } from './hosts.ts'
import type { Setting } from './setting.ts'

export interface ServeChoices extends Omit<Setting, 'hosts' | 'closing'> {
  readonly host: string
  readonly port: number
}

export interface Served {
  /** `http://localhost:4848` */
  readonly address: string
  /** By which other machines may call it. */
  readonly others: readonly string[]
  readonly port: number
  /** Ends event streams and work, then the rest. */
  close(): Promise<void>
}

const MOST_PORTS = 100
const LAST_PORT = 65_535
const MOST_CONNECTIONS = 500
/** Connections that have not ended by then are cut. */
const PATIENCE_MS = 3000
const IDLE_MS = 25

/** Throws a Refusal where the address is none of this machine, or no port near the one asked for is free. */
export async function serve({ host, port, ...rest }: ServeChoices): Promise<Served> {
  const closing = new AbortController()
  let answer: (request: Request, env: unknown) => Response | Promise<Response> = () =>
    new Response(null, { status: 404 })
  const listening = await listenNear(host, port, () =>
    createAdaptorServer({ fetch: (request, env) => answer(request, env) }),
  )
  const app = appFor({ ...rest, closing: closing.signal, hosts: hostsFor(host, listening.port) })
  answer = (request, env) => app.fetch(request, env as object)
  const [address, ...others] = shownHosts(host).map((name) => `http://${inAddress(name)}:${listening.port}`)
  return {
    address,
    others,
    port: listening.port,
    async close() {
      closing.abort()
      await Promise.all(listening.servers.map(closed))
    },
  }
}

interface Listening {
  readonly port: number
  readonly servers: readonly Server[]
}

async function listenNear(host: string, first: number, make: () => unknown): Promise<Listening> {
  for (let port = first; port < first + MOST_PORTS && port <= LAST_PORT; port++) {
    const servers = await listenAt(addressesOf(host), port, make)
    if (servers !== null) return { servers, port: (servers[0].address() as AddressInfo).port }
  }
  throw new Refusal(`No port from ${first} on is free at ${host}. Choose another with --port.`)
}

/** On all of the addresses that the machine has; null where one of them is in use. */
async function listenAt(
  addresses: readonly string[],
  port: number,
  make: () => unknown,
): Promise<Server[] | null> {
  const servers: Server[] = []
  for (const address of addresses) {
    const server = make() as Server
    server.maxConnections = MOST_CONNECTIONS
    // A free port that the system chose for the first address is wanted for the others.
    const wanted = servers.length === 0 ? port : (servers[0].address() as AddressInfo).port
    const error = await listen(server, wanted, address)
    if (error === null) {
      servers.push(server)
      continue
    }
    const isMissing = error.code === 'EADDRNOTAVAIL' || error.code === 'EAFNOSUPPORT'
    if (isMissing && addresses.length > 1) continue
    await Promise.all(servers.map(closed))
    if (error.code === 'EADDRINUSE') return null
    throw new Refusal(`The workbench cannot listen at ${inAddress(address)}:${port}: ${whyNot(error)}.`)
  }
  if (servers.length === 0) throw new Refusal('This machine has no address of its own to listen at.')
  return servers
}

const whyNot = ({ code, message }: NodeJS.ErrnoException): string => {
  if (code === 'EACCES') return 'ports below 1024 need special rights; choose another with --port'
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') return 'this machine has no such address; see --host'
  return message
}

function listen(server: Server, port: number, address: string): Promise<NodeJS.ErrnoException | null> {
  return new Promise((resolve) => {
    server.once('error', resolve)
    server.listen({ port, host: address }, () => {
      server.removeListener('error', resolve)
      resolve(null)
    })
  })
}

function closed(server: Server): Promise<void> {
  return new Promise((resolve) => {
    // Connections go idle one by one, as their streams end.
    const idle = setInterval(() => server.closeIdleConnections(), IDLE_MS)
    const cut = setTimeout(() => server.closeAllConnections(), PATIENCE_MS)
    server.close(() => {
      clearInterval(idle)
      clearTimeout(cut)
      resolve()
    })
  })
}
