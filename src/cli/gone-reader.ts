/** Standard output and standard error whose reader goes away (`| head`), or that cannot be written. */
import type { Writable } from 'node:stream'

/**
 * What nobody reads any longer is dropped without a word: files are still written, and the exit code is that of the
 * answer. `onUnwritten` hears once of anything else that keeps the answer from being written (a full disk); of what keeps
 * remarks from being written there is nowhere to tell.
 */
export function bearGoneReaders(
  answer: Writable,
  remarks: Writable,
  onUnwritten: (error: NodeJS.ErrnoException) => void,
): void {
  let isTold = false
  answer.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE' || isTold) return
    isTold = true
    onUnwritten(error)
  })
  remarks.on('error', () => {})
}
