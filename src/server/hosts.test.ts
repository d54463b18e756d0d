import { hostname } from 'node:os'
import { describe, expect, it } from 'vitest'
import { hostsFor, isLoopback } from './hosts.ts'

describe('names of the server', () => {
  it('are those of this machine alone, by default', () => {
    expect([...hostsFor('localhost', 4848)].sort()).toEqual([
      '127.0.0.1:4848',
      '[::1]:4848',
      'localhost:4848',
    ])
  })

  it('may leave out port 80, as browsers do', () => {
    expect(hostsFor('localhost', 80).has('localhost')).toBe(true)
    expect(hostsFor('localhost', 81).has('localhost')).toBe(false)
  })

  it('include the address that it was told to listen at', () => {
    expect(hostsFor('192.0.2.7', 4848).has('192.0.2.7:4848')).toBe(true)
    expect(hostsFor('2001:db8::7', 4848).has('[2001:db8::7]:4848')).toBe(true)
  })

  it('are all of the machine where it listens everywhere, and no others', () => {
    for (const everywhere of ['0.0.0.0', '::']) {
      const hosts = hostsFor(everywhere, 4848)
      expect(hosts.has(`${hostname().toLowerCase()}:4848`)).toBe(true)
      expect(hosts.has('evil.example:4848')).toBe(false)
      expect(hosts.has('0.0.0.0:4848')).toBe(false)
    }
  })
})

it.each<[string, boolean]>([
  ['localhost', true],
  ['127.0.0.1', true],
  ['127.8.9.1', true],
  ['::1', true],
  ['0.0.0.0', false],
  ['::', false],
  ['192.0.2.7', false],
  ['127.0.0.1.example', false],
  ['localhost.example', false],
  ['', false],
])('%s is reached from this machine only: %s', (host, is) => expect(isLoopback(host)).toBe(is))
