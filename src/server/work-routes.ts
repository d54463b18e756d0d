/** `/api/work`: long work, told by events on the answer and cancelled by closing it. */
import { Hono } from 'hono'
import type { Told } from '../api/work.ts'
import { eventStream } from './event-stream.ts'
import { jsonBody, jsonLimit } from './request-body.ts'
import { runJob } from './run-job.ts'
import type { Setting } from './setting.ts'
import { turnsFor } from './turns.ts'
import { askedWork } from './works/works.ts'

/** Each takes all threads it is given; more at once would only make each other slow. */
const AT_ONCE = 3

export function workRoutes({ folder, threads, calendarYear, closing, onFault }: Setting): Hono {
  const turns = turnsFor(AT_ONCE)
  return new Hono().post('/', jsonLimit, async (c) => {
    const asked = await jsonBody(c, askedWork)
    return eventStream(c, closing, async ({ tell, signal }) => {
      const told = (event: Told) => tell(JSON.stringify(event))
      const done = await turns.take(signal, () => told({ event: 'progress', done: 0, of: 1 }))
      if (done !== null) {
        await runJob({ asked, folder, threads, calendarYear: calendarYear() }, { tell, onFault }, signal)
        done()
      }
      if (closing.aborted)
        told({ event: 'refused', why: 'The workbench was closed before the answer came.', isOurs: false })
    })
  })
}
