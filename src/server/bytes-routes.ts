/** `/api/bytes`: a weather file as it is. */
import { readFile, stat } from 'node:fs/promises'
import { Hono } from 'hono'
import { Refused, refusedByDisk } from './refused.ts'
import { fileAsked } from './request-body.ts'
import { servedFile } from './served-file.ts'
import type { Setting } from './setting.ts'

/** A year of hours has some megabytes. */
const MOST_BYTES = 32 << 20

export function bytesRoutes({ folder }: Setting): Hono {
  return new Hono().get('/', async (c) => {
    const file = fileAsked(c)
    const path = servedFile(folder, file, 'weather')
    try {
      if ((await stat(path)).size > MOST_BYTES)
        throw new Refused(413, `${file} is larger than 32 MB, which is no weather year.`)
      return c.body(new Uint8Array(await readFile(path)), 200, { 'content-type': 'application/octet-stream' })
    } catch (error) {
      throw refusedByDisk(file, 'read', error)
    }
  })
}
