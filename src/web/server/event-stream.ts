/** Server-sent events (WHATWG HTML, 9.2) out of a streamed answer: the data of each event, in order. */
export async function* eventsOf(body: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const reader = body.pipeThrough(new TextDecoderStream() as TransformStream<Uint8Array, string>).getReader()
  let rest = ''
  try {
    for (;;) {
      const { done, value } = await reader.read()
      if (done) return
      const events = (rest + value).split(/\r?\n\r?\n/)
      rest = events.pop() ?? ''
      for (const event of events) {
        const data = event
          .split(/\r?\n/)
          .filter((line) => line.startsWith('data:'))
          .map((line) => line.slice(5).replace(/^ /, ''))
        if (data.length > 0) yield data.join('\n')
      }
    }
  } finally {
    await reader.cancel().catch(() => {})
  }
}
