/** `/api/uploads`: a file of any size in pieces, which can pause, go on and be dropped. */
import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { z } from 'zod'
import type { FolderWatch } from './folder-watch.ts'
import { numberAsked } from './recording-asked.ts'
import { Refused, refuse } from './refused.ts'
import { jsonBody, jsonLimit } from './request-body.ts'
import type { Setting } from './setting.ts'
import { PIECE_BYTES, Uploads } from './uploads.ts'

const begun = z.strictObject({
  name: z.string().max(1000),
  bytes: z.int().min(0),
})

const pieceLimit = bodyLimit({
  maxSize: PIECE_BYTES,
  onError: (c) => refuse(c, new Refused(413, `A piece has ${PIECE_BYTES} bytes at most.`)),
})

export function uploadsRoutes({ folder, closing }: Setting, watch: FolderWatch): Hono {
  const uploads = new Uploads(folder, closing)
  return new Hono()
    .post('/', jsonLimit, async (c) => {
      const { name, bytes } = await jsonBody(c, begun)
      return c.json(await uploads.begin(name, bytes))
    })
    .get('/:id', (c) => c.json(uploads.received(c.req.param('id'))))
    .put('/:id', pieceLimit, async (c) =>
      c.json(await uploads.take(c.req.param('id'), atAsked(c), await piece(c))),
    )
    .delete('/:id', async (c) => {
      await uploads.drop(c.req.param('id'))
      return c.json({})
    })
    .post('/:id/done', async (c) => {
      const kept = await uploads.keep(c.req.param('id'))
      watch.lookSoon()
      return c.json(kept)
    })
}

function atAsked(c: Context): number {
  const at = numberAsked(c, 'at')
  if (Number.isSafeInteger(at) && at >= 0) return at
  throw new Refused(422, `A piece begins at a byte, counted from 0, not at ${at}.`)
}

async function piece(c: Context): Promise<Uint8Array> {
  // As with JSON: no page of another site may send this type without leave.
  if (c.req.header('content-type') !== 'application/octet-stream')
    throw new Refused(415, 'A piece comes with content-type application/octet-stream.')
  return new Uint8Array(await c.req.arrayBuffer())
}
