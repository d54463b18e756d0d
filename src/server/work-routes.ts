/** `/api/work`: long work, told by events on the answer and cancelled by closing it. */
import { Hono } from 'hono'
import type { Told } from '../api/work.ts'
import { eventStream } from './event-stream.ts'
import { Refused } from './refused.ts'
import { jsonBody, jsonLimit } from './request-body.ts'
import { runJob } from './run-job.ts'
import type { Setting } from './setting.ts'
import { turnsFor } from './turns.ts'
import { askedWork } from './works/works.ts'

/** Each takes all threads it is given; more at once would only make each other slow. */
const AT_ONCE = 3
/** Recordings under way wait for their ports, and take next to nothing. */
const PORTS_AT_ONCE = 8

export function workRoutes({ folder, threads, calendarYear, closing, onFault }: Setting): Hono {
  const turns = turnsFor(AT_ONCE)
  const ports = turnsFor(PORTS_AT_ONCE)
  /** By the name that the page gave to work which it may end with what there is. */
  const named = new Map<string, AbortController>()
  return new Hono()
    .post('/', jsonLimit, async (c) => {
      const asked = await jsonBody(c, askedWork)
      const name = asked.work === 'record' ? asked.id : null
      const enough = new AbortController()
      if (name !== null && named.has(name)) throw new Refused(422, 'That recording is under way already.')
      if (name !== null) named.set(name, enough)
      return eventStream(c, closing, async ({ tell, signal }) => {
        const told = (event: Told) => tell(JSON.stringify(event))
        const lane = asked.work === 'record' ? ports : turns
        const done = await lane.take(signal, () => told({ event: 'progress', done: 0, of: 1 }))
        if (done !== null) {
          const job = { asked, folder, threads, calendarYear: calendarYear() }
          await runJob(job, { tell, onFault }, { signal, enough: enough.signal })
          done()
        }
        if (name !== null) named.delete(name)
        if (closing.aborted)
          told({ event: 'refused', why: 'The workbench was closed before the answer came.', isOurs: false })
      })
    })
    .post('/stop', (c) => {
      const found = named.get(c.req.query('id') ?? '')
      if (found === undefined) throw new Refused(404, 'No work of that name is under way.')
      found.abort()
      return c.json({})
    })
}
