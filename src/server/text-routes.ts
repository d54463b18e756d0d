/** `/api/text`: the text of an outpost file. */
import { Hono } from 'hono'
import { z } from 'zod'
import type { FolderWatch } from './folder-watch.ts'
import { readText, textSaver } from './outpost-text.ts'
import { fileAsked, jsonBody, jsonLimit, MOST_TEXT } from './request-body.ts'
import type { Setting } from './setting.ts'

const save = z.strictObject({
  file: z.string(),
  text: z.string().max(MOST_TEXT),
  before: z.string().max(200).nullable(),
})

export function textRoutes({ folder }: Setting, watch: FolderWatch): Hono {
  const saveText = textSaver(folder)
  return new Hono()
    .get('/', async (c) => c.json(await readText(folder, fileAsked(c))))
    .put('/', jsonLimit, async (c) => {
      const saved = await saveText(await jsonBody(c, save))
      watch.lookSoon()
      return c.json(saved, 'now' in saved ? 409 : 200)
    })
}
