/** Imports a recording with its progress shown; Ctrl-C leaves nothing half made. */
import { readEnvironment } from '../workbench/environment.ts'
import { interruptible } from '../workbench/interrupt.ts'
import { progressLine } from '../workbench/progress.ts'
import { type OpenChoices, openSource } from '../workbench/read-recording.ts'

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
  ).finally(progress.clear)
}
