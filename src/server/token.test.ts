import { afterAll, describe, expect, it } from 'vitest'
import { benchWith } from '../../test/workbench-app.ts'
import type { Refused } from '../api/files.ts'

const TOKEN = 'a token of more than sixteen'
const SHOWN = encodeURIComponent(TOKEN)
const bench = benchWith({}, { token: TOKEN })
afterAll(bench.close)

const passOf = (response: Response) => response.headers.get('set-cookie')!.split(';')[0]

describe('with a token', () => {
  it.each(['/', '/wake', '/assets/page-Ab12.js', '/api/folder', '/api/events', '/nowhere'])(
    '%s is closed to whoever does not show it',
    async (path) => {
      const response = await bench.ask(path)
      expect(response.status).toBe(403)
      expect(((await response.json()) as Refused).refused).toMatch(/asks for its token/)
    },
  )

  it('what opens is a cookie, and the address no longer shows the token', async () => {
    const response = await bench.ask(`/wake?file=a.outpost.yaml&token=${SHOWN}`)
    expect(response.status).toBe(303)
    expect(response.headers.get('location')).toBe('/wake?file=a.outpost.yaml')
    const cookie = response.headers.get('set-cookie')!
    expect(cookie).toMatch(/; Path=\/; HttpOnly; SameSite=Strict$/)
    expect(decodeURIComponent(cookie)).not.toContain(TOKEN)
    const headers = { cookie: passOf(response) }
    for (const path of ['/wake', '/assets/page-Ab12.js', '/api/folder'])
      expect((await bench.ask(path, { headers })).status).toBe(200)
  })

  it('whoever comes by a link from another site goes on by a step of the page, which may carry the cookie', async () => {
    const response = await bench.ask(`/wake?a="><script>&token=${SHOWN}`, {
      headers: { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'document' },
    })
    expect(response.status).toBe(200)
    expect(response.headers.get('set-cookie')).toMatch('SameSite=Strict')
    const page = await response.text()
    expect(page).toContain('http-equiv="refresh" content="0; url=/wake?a=')
    expect(page).not.toContain('<script')
  })

  it('goes nowhere else', async () => {
    const response = await bench.ask(`http://localhost:4848//evil.example/?token=${SHOWN}`)
    expect(response.headers.get('location')).toBe('/evil.example/')
  })

  it.each(['', 'wrong', TOKEN.slice(0, -1), `${TOKEN}x`, TOKEN.toUpperCase()])(
    '"%s" is not it',
    async (shown) => {
      const response = await bench.ask(`/?token=${encodeURIComponent(shown)}`)
      expect(response.status).toBe(403)
      expect(response.headers.get('set-cookie')).toBeNull()
    },
  )

  it('no other cookie opens', async () => {
    const name = passOf(await bench.ask(`/?token=${SHOWN}`)).split('=')[0]
    for (const cookie of [`${name}=`, `${name}=${SHOWN}`, `${name}=${'0'.repeat(64)}`, `other=${TOKEN}`])
      expect((await bench.ask('/api/folder', { headers: { cookie } })).status).toBe(403)
  })

  it('the token opens reading an address, never sending something to one', async () => {
    const asked = await bench.send('PUT', `/api/text?token=${SHOWN}`, {
      file: 'a.outpost.yaml',
      text: '',
      before: null,
    })
    expect(asked.status).toBe(403)
  })

  it('names and origins are asked for as well', async () => {
    expect((await bench.ask(`/?token=${SHOWN}`, { headers: { host: 'evil.example' } })).status).toBe(403)
  })
})
