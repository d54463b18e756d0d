/** `/api/events`: changes of files, as they happen. */
import { once } from 'node:events'
import { Hono } from 'hono'
import type { FileChanged } from '../api/files.ts'
import { eventStream } from './event-stream.ts'
import type { FolderWatch } from './folder-watch.ts'
import { Refused } from './refused.ts'
import type { Setting } from './setting.ts'

export function eventsRoutes({ closing }: Setting, watch: FolderWatch): Hono {
  return new Hono().get('/', async (c) => {
    if (c.req.method === 'HEAD') throw new Refused(400, 'Events have no end: ask for them with GET.')
    let tell = (_: FileChanged): void => {}
    // Before the answer begins: whoever sees it begin misses nothing.
    const stop = await watch.listen((change) => tell(change))
    return eventStream(c, closing, async (stream) => {
      tell = (change) => stream.tell(JSON.stringify(change))
      if (!stream.signal.aborted) await once(stream.signal, 'abort')
      stop()
    })
  })
}
