/** Runs `work` so that Ctrl-C aborts its signal; a second Ctrl-C ends the process at once, as usual. */
export async function interruptible<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController()
  const stop = () => controller.abort()
  process.once('SIGINT', stop)
  try {
    return await work(controller.signal)
  } finally {
    process.removeListener('SIGINT', stop)
  }
}
