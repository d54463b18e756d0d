/** One line of progress on standard error, only on a terminal and only when work takes longer than a second. */
import type { Environment } from './environment.ts'

const QUIET_MS = 1000

export interface ProgressLine {
  readonly show: (done: number, of: number) => void
  readonly clear: () => void
}

export function progressLine({ errIsTerminal }: Environment, what: string): ProgressLine {
  const began = performance.now()
  let shown = false
  return {
    show(done, of) {
      const elapsed = performance.now() - began
      if (!errIsTerminal || elapsed < QUIET_MS) return
      const left_s = Math.ceil(((elapsed / done) * (of - done)) / 1000)
      process.stderr.write(`\r${done} of ${of} ${what}, about ${left_s} s left\u001b[K`)
      shown = true
    },
    clear() {
      if (shown) process.stderr.write('\r\u001b[K')
    },
  }
}
