/**
 * Who may talk to the server. A page of any other site can send requests to this machine from the user's own browser;
 * it shows by the Host it believed in (a name that was made to point here), by its Origin, or by Sec-Fetch-Site.
 */
import type { Context, MiddlewareHandler } from 'hono'
import { Refused } from './refused.ts'

export function gate(hosts: ReadonlySet<string>): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host')?.toLowerCase()
    if (host === undefined || !hosts.has(host))
      throw new Refused(
        403,
        'The workbench does not answer under this name. Use the address that it printed.',
      )
    const origin = c.req.header('origin')
    if (origin !== undefined && origin.toLowerCase() !== `http://${host}`)
      throw new Refused(
        403,
        'The workbench answers to its own pages only, and this request came from another site.',
      )
    if (isForeign(c.req.header('sec-fetch-site')) && !isVisit(c))
      throw new Refused(403, 'The workbench answers to its own pages only, and another site asked for this.')
    await next()
  }
}

/** Another port of this machine is another site too, though browsers call it the same. */
const isForeign = (site: string | undefined): boolean =>
  site !== undefined && site !== 'same-origin' && site !== 'none'

/** A link to one of the pages that someone followed, not one that a frame did. */
const isVisit = ({ req }: Context): boolean =>
  req.method === 'GET' &&
  !req.path.startsWith('/api/') &&
  req.header('sec-fetch-mode') === 'navigate' &&
  req.header('sec-fetch-dest') === 'document'
