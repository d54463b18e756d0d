/** An answer of server-sent events (WHATWG HTML, 9.2), each with a line of JSON, until it is done or nobody listens. */
import type { Context } from 'hono'
import { streamSSE } from 'hono/streaming'

/** So often something is said, lest a network in between takes the connection for dead. */
const BEAT_MS = 15_000

export interface Stream {
  readonly tell: (json: string) => void
  /** Aborted when the reader leaves, or the server stops. */
  readonly signal: AbortSignal
}

/** `talk` is called at once and must not throw; the stream ends with it. */
export function eventStream(
  c: Context,
  closing: AbortSignal,
  talk: (stream: Stream) => Promise<void>,
): Response {
  return streamSSE(c, async (stream) => {
    const left = new AbortController()
    stream.onAbort(() => left.abort())
    const beat = () => void stream.write(':\n\n')
    beat() // headers go out with the first byte, and tell the reader that all is well
    const beating = setInterval(beat, BEAT_MS).unref()
    let writing: Promise<unknown> = Promise.resolve()
    const tell = (data: string) => {
      writing = writing.then(() => stream.writeSSE({ data }))
    }
    try {
      const signal = AbortSignal.any([left.signal, closing, c.req.raw.signal])
      await talk({ signal, tell })
      await writing
    } finally {
      clearInterval(beating)
    }
  })
}
