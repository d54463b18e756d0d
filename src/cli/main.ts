#!/usr/bin/env node
import { exitCodeOf } from './exit-code.ts'
import { program } from './program.ts'

try {
  await program().parseAsync(process.argv)
} catch (error) {
  process.exitCode = exitCodeOf(error)
}
