/** `overwinter adopt`: shows what measured numbers change in an outpost file, and writes it when told to. */
import { createInterface } from 'node:readline/promises'
import { unifiedDifference } from '../report/difference-text.ts'
import { wrap } from '../report/wrap.ts'
import { adoption } from '../workbench/adopt.ts'
import { Refusal } from '../workbench/refusal.ts'
import { replaceFile } from '../workbench/replace-file.ts'
import { type MatchOptions, openMatched } from './match-options.ts'

export interface AdoptOptions extends MatchOptions {
  readonly yes?: boolean
  readonly json?: boolean
}

const WIDTH = 78

export async function adoptCommand(source: string, file: string, options: AdoptOptions): Promise<void> {
  const { open, matched, close } = await openMatched(source, file, options, [
    'ambiguous',
    'left',
    'unlike',
    'clipped',
  ])
  try {
    const { before, after, splices, numbers, notes } = adoption(open, matched)
    const difference = unifiedDifference(file, before, splices)
    if (!options.json)
      process.stdout.write(`${difference}${notes.map((note) => `${wrap(note, WIDTH)}\n`).join('')}`)
    const written = splices.length > 0 && (options.yes === true || (await agreed(file)))
    if (written) await replaceFile(file, before, after)
    if (options.json)
      process.stdout.write(`${JSON.stringify({ file, written, numbers, notes, difference }, null, 2)}\n`)
    else if (splices.length === 0) process.stdout.write(`${file} says all of this already.\n`)
    else process.stdout.write(written ? `Wrote ${file}.\n` : `${file} is left as it is.\n`)
  } finally {
    close()
  }
}

async function agreed(file: string): Promise<boolean> {
  if (process.stdin.isTTY !== true)
    throw new Refusal(`Nothing is written to ${file} without a yes: add --yes, or run this in a terminal.`)
  const asking = createInterface({ input: process.stdin, output: process.stderr })
  const answer = await asking.question(`Write this to ${file}? (y/n) `)
  asking.close()
  return /^y(es)?$/i.test(answer.trim())
}
