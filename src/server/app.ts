/** The workbench's server as a function from requests to answers; `serve.ts` gives it a port. */
import { Hono } from 'hono'
import { HTTPException } from 'hono/http-exception'
import { bytesRoutes } from './bytes-routes.ts'
import { eventsRoutes } from './events-routes.ts'
import { folderRoutes } from './folder-routes.ts'
import { folderWatch } from './folder-watch.ts'
import { gate } from './gate.ts'
import { NO_PAGE, pageRoutes } from './page-routes.ts'
import { recordingRoutes } from './recording-routes.ts'
import { Refused, refuse } from './refused.ts'
import { safeHeaders } from './safe-headers.ts'
import { portsRoutes } from './serial-ports.ts'
import type { Setting } from './setting.ts'
import { textRoutes } from './text-routes.ts'
import { tokenGate } from './token.ts'
import { uploadsRoutes } from './uploads-routes.ts'
import { workRoutes } from './work-routes.ts'

export function appFor(setting: Setting): Hono {
  const watch = folderWatch(setting.folder)
  const api = new Hono()
    .use(async (c, next) => {
      await next()
      c.header('cache-control', 'no-store')
    })
    .route('/folder', folderRoutes(setting))
    .route('/text', textRoutes(setting, watch))
    .route('/bytes', bytesRoutes(setting))
    .route('/events', eventsRoutes(setting, watch))
    .route('/work', workRoutes(setting))
    .route('/uploads', uploadsRoutes(setting, watch))
    .route('/recording', recordingRoutes(setting))
    .route('/ports', portsRoutes())
    .all('*', (c) => refuse(c, new Refused(404, 'The workbench has no such route.')))

  const app = new Hono().use(safeHeaders).use(gate(setting.hosts))
  if (setting.token !== null) app.use(tokenGate(setting.token))
  return app
    .route('/api', api)
    .route('/', pageRoutes(setting))
    .notFound((c) => c.html(NO_PAGE, 404))
    .onError((error, c) => {
      if (error instanceof Refused) return refuse(c, error)
      if (error instanceof HTTPException) return error.getResponse()
      setting.onFault(error)
      return c.json(
        { refused: 'This is a fault of Overwinter; what went wrong stands where it was started.' },
        500,
      )
    })
}
