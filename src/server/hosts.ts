/** Where the server listens, and by which names it may be called. */
import { hostname, networkInterfaces } from 'node:os'

const LOOPBACK = ['127.0.0.1', '::1']
const EVERYWHERE = ['0.0.0.0', '::']

/** Only programs on this machine can reach it. */
export const isLoopback = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host)

/** Browsers take localhost for either of two addresses. */
export const addressesOf = (host: string): readonly string[] => (host === 'localhost' ? LOOPBACK : [host])

/** What a Host header may say. A server that listens everywhere goes by every name of its machine. */
export function hostsFor(host: string, port: number): ReadonlySet<string> {
  const names = ['localhost', ...LOOPBACK, ...(EVERYWHERE.includes(host) ? ownNames() : [host])]
  return new Set(
    names.flatMap((name) => {
      const shown = inAddress(name.toLowerCase())
      return port === 80 ? [shown, `${shown}:80`] : [`${shown}:${port}`]
    }),
  )
}

/** By which a server at `host` is opened: on this machine first, and where it listens everywhere, from others. */
export function shownHosts(host: string): readonly string[] {
  if (!EVERYWHERE.includes(host)) return [host]
  const outward = Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .filter(({ internal, scopeid }) => !internal && !scopeid)
  return ['localhost', ...outward.map(({ address }) => address)]
}

function ownNames(): string[] {
  const addresses = Object.values(networkInterfaces()).flatMap((each) => each ?? [])
  return [hostname(), `${hostname()}.local`, ...addresses.map(({ address }) => address)]
}

/** As an address has it: `[::1]`. */
export const inAddress = (host: string): string => (host.includes(':') ? `[${host}]` : host)
