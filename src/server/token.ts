/**
 * Outside this machine whoever connects shows a token, once, in the address; a cookie stands for it from then on, and the
 * address without it is what stays in history and links.
 */
import { createHash, createHmac, timingSafeEqual } from 'node:crypto'
import type { Context, MiddlewareHandler } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'
import { html } from 'hono/html'
import { Refused } from './refused.ts'

/** Fewer characters could be guessed. */
export const LEAST_TOKEN = 16

export function tokenGate(token: string): MiddlewareHandler {
  // The cookie is no token: who finds it cannot hand on the address. Its name tells servers of one machine apart.
  const pass = createHmac('sha256', token).update('overwinter pass').digest('hex')
  const name = `overwinter-${createHash('sha256').update(pass).digest('hex').slice(0, 8)}`
  return async (c, next) => {
    const shown = c.req.query('token')
    if (shown !== undefined && c.req.method === 'GET') {
      if (!isSame(shown, token)) throw new Refused(403, 'That is not the token of this workbench.')
      setCookie(c, name, pass, { httpOnly: true, sameSite: 'Strict', path: '/' })
      return goOn(c, withoutToken(c.req.url))
    }
    if (!isSame(getCookie(c, name) ?? '', pass))
      throw new Refused(
        403,
        'The workbench asks for its token: open the address that it printed, with ?token= in it.',
      )
    await next()
  }
}

/** In a time that does not depend on where they differ. */
const isSame = (given: string, wanted: string): boolean =>
  timingSafeEqual(createHash('sha256').update(given).digest(), createHash('sha256').update(wanted).digest())

function withoutToken(address: string): string {
  const url = new URL(address)
  url.searchParams.delete('token')
  return `${url.pathname.replace(/^\/+/, '/')}${url.search}`
}

/** A browser withholds a strict cookie from a redirect that began on another site, but not from the page's own step. */
function goOn(c: Context, to: string): Response | Promise<Response> {
  if (c.req.header('sec-fetch-site') !== 'cross-site') return c.redirect(to, 303)
  return c.html(
    html`<!doctype html><meta http-equiv="refresh" content="0; url=${to}"><title>Overwinter</title><a href="${to}">Go on to the workbench</a>`,
  )
}
