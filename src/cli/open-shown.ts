/** Imports and reads recordings with their progress shown; Ctrl-C leaves nothing half made. */
import { type Environment, readEnvironment } from '../workbench/environment.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { progressLine } from '../workbench/progress.ts'
import { type OpenChoices, openSource } from '../workbench/read-recording.ts'
import { withOptions } from './source-options.ts'

export async function openShown(file: string, read: OpenChoices['read'], strict: boolean) {
  const progress = progressLine(readEnvironment(), 'MB')
  const megabytes = (bytes: number) => Math.max(Math.round(bytes / 1e6), 1)
  return interruptible((signal) =>
    openSource(file, {
      read,
      strict,
      signal,
      onProgress: (done, all) => progress.show(megabytes(done), megabytes(all)),
    }),
  )
    .catch((error: unknown) => {
      throw withOptions(error)
    })
    .finally(progress.clear)
}

/** More samples than are read within a second or so. */
const MANY_SAMPLES = 5e6

/** Says on a terminal what takes long. What is imported is kept by then, so Ctrl-C may end the process as usual. */
export function findingStates<T>({ errIsTerminal }: Environment, samples: number, work: () => T): T {
  if (!errIsTerminal || samples < MANY_SAMPLES) return work()
  process.stderr.write(`Finding states in ${Math.round(samples / 1e6)} million samples …`)
  try {
    return work()
  } finally {
    process.stderr.write('\r\u001b[K')
  }
}
