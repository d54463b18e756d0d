#!/usr/bin/env node
import { exitCodeOf, exitCodeUnwritten } from './exit-code.ts'
import { bearGoneReaders } from './gone-reader.ts'
import { program } from './program.ts'

bearGoneReaders(process.stdout, process.stderr, (error) => {
  const code = exitCodeUnwritten(error)
  // Told of it late: the command may have given its own code already, or give it yet.
  process.once('exit', () => {
    process.exitCode = code
  })
})
try {
  await program().parseAsync(process.argv)
} catch (error) {
  process.exitCode = exitCodeOf(error)
}
