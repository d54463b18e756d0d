/** Exit codes: 0 good, 1 the answer is no, 2 the input is wrong, 70 our fault, 130 interrupted. */
import { CommanderError } from 'commander'
import { Refusal } from '../workbench/refusal.ts'

/** Says on standard error what went wrong and returns the code to leave with. */
export function exitCodeOf(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2 // commander has said it already
  if (error instanceof Refusal) {
    process.stderr.write(`${error.message}\n`)
    return error.exitCode
  }
  if (error instanceof Error && error.name === 'AbortError') {
    process.stderr.write('Interrupted; nothing was written.\n')
    return 130
  }
  process.stderr.write(
    `This is a fault of Overwinter, please report it:\n${error instanceof Error ? error.stack : String(error)}\n`,
  )
  return 70
}

/** Says on standard error that the answer could not be written where it was sent, and returns the code to leave with. */
export function exitCodeUnwritten({ code, message }: NodeJS.ErrnoException): number {
  const why = code === 'ENOSPC' ? 'the disk is full' : message
  process.stderr.write(`The answer could not be written: ${why}.\n`)
  return 2
}
