/** `/api/folder`: what can be opened. */
import { Hono } from 'hono'
import { folderDescriber } from './describe-folder.ts'
import type { Setting } from './setting.ts'

export function folderRoutes(setting: Setting): Hono {
  const describe = folderDescriber(setting)
  return new Hono().get('/', async (c) => c.json(await describe()))
}
