/** The body of a request as JSON: bounded, of the right type, and what it should be. */
import type { Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import { Refused, refuse } from './refused.ts'

/** Longer texts are no outposts. */
export const MOST_TEXT = 1 << 20
/** A text as JSON: each line end, quote and accent may take more than it does in the file. */
const MOST_BODY = 4 * MOST_TEXT

/** Goes before a handler that takes JSON. */
export const jsonLimit = bodyLimit({
  maxSize: MOST_BODY,
  onError: (c) =>
    refuse(c, new Refused(413, 'That is more than the workbench takes at a time: 1 MB of text.')),
})

export async function jsonBody<T>(c: Context, schema: z.ZodType<T>): Promise<T> {
  // Any page may send forms to any address; JSON needs leave, and the server gives it to none.
  if (!/^application\/json\s*(;|$)/i.test(c.req.header('content-type') ?? ''))
    throw new Refused(415, 'The body must be JSON, with content-type application/json.')
  const body = await c.req.json().catch(() => {
    throw new Refused(400, 'The body is no JSON.')
  })
  const read = schema.safeParse(body)
  if (read.success) return read.data
  const { path, message } = read.error.issues[0]
  if (isTooLong(read.error)) throw new Refused(413, 'The text is longer than the workbench takes: 1 MB.')
  throw new Refused(
    422,
    `${path.length === 0 ? 'The body' : path.join('.')} is not as it should be: ${message}.`,
  )
}

const isTooLong = ({ issues }: z.ZodError): boolean =>
  issues.some((issue) => issue.code === 'too_big' && issue.maximum === MOST_TEXT)

/** The file that a request is about. */
export function fileAsked(c: Context): string {
  const file = c.req.query('file')
  if (file === undefined) throw new Refused(400, 'Which file? The address must end in ?file= and its name.')
  return file
}
