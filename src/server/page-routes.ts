/** The pages: one document for each of them, and what it loads. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { Hono } from 'hono'
import { compress } from 'hono/compress'
import { html } from 'hono/html'
import type { SecureHeadersVariables } from 'hono/secure-headers'
import { getMimeType } from 'hono/utils/mime'
import type { Setting } from './setting.ts'

const PAGES = ['/', '/start', '/wake', '/supply', '/place', '/outlook', '/choices', '/bench']
/** The built document holds this where the nonce of each load belongs. */
const NONCE_MARK = '__NONCE__'
/** Made beside the files where the build had time to. */
const PACKED = [
  { encoding: 'br', ending: '.br' },
  { encoding: 'gzip', ending: '.gz' },
] as const

export function pageRoutes({ webRoot }: Setting): Hono<{ Variables: SecureHeadersVariables }> {
  const routes = new Hono<{ Variables: SecureHeadersVariables }>().use(compress())

  for (const page of PAGES)
    routes.get(page, async (c) => {
      const document = await read(join(webRoot, 'index.html'))
      if (document === null) return c.html(NOT_BUILT, 404)
      c.header('cache-control', 'no-store')
      const text = new TextDecoder().decode(document)
      return c.html(text.replaceAll(NONCE_MARK, c.get('secureHeadersNonce') ?? ''))
    })

  routes.get('/assets/:name', async (c, next) => {
    const name = c.req.param('name')
    if (!/^[\w-][\w.-]*$/.test(name)) return next()
    const found = await readPacked(join(webRoot, 'assets', name), c.req.header('accept-encoding') ?? '')
    if (found === null) return next()
    if (found.encoding !== null) c.header('content-encoding', found.encoding)
    c.header('vary', 'Accept-Encoding')
    // The name holds a hash of the content.
    c.header('cache-control', 'private, max-age=31536000, immutable')
    return c.body(found.bytes, 200, { 'content-type': getMimeType(name) ?? 'application/octet-stream' })
  })
  return routes
}

export const NO_PAGE = html`<!doctype html><html lang="en"><meta charset="utf-8"><title>Overwinter: no such page</title><h1>There is no such page</h1><p><a href="/">Open the workbench</a></p></html>`

const NOT_BUILT = html`<!doctype html><html lang="en"><meta charset="utf-8"><title>Overwinter</title><h1>The pages are not built yet</h1><p>Run <code>npm run build</code> in the folder of Overwinter, then load this page again.</p></html>`

async function readPacked(path: string, accepted: string) {
  for (const { encoding, ending } of PACKED) {
    if (!new RegExp(`\\b${encoding}\\b(?!\\s*;\\s*q=0(\\.0*)?\\s*(,|$))`).test(accepted)) continue
    const bytes = await read(`${path}${ending}`)
    if (bytes !== null) return { bytes, encoding }
  }
  const bytes = await read(path)
  return bytes === null ? null : { bytes, encoding: null }
}

async function read(path: string): Promise<Uint8Array<ArrayBuffer> | null> {
  try {
    return new Uint8Array(await readFile(path))
  } catch {
    return null
  }
}
