/** `overwinter new`: five numbers, as options or asked for one by one, become an outpost file. */
import { dirname, relative, resolve } from 'node:path'
import { createInterface } from 'node:readline/promises'
import { fileURLToPath } from 'node:url'
import { type Answers, newOutpost } from '../outpost/file/new.ts'
import { Refusal } from '../workbench/refusal.ts'
import { writeWhole } from '../workbench/write-file.ts'
import { unwritable } from '../workbench/write-named.ts'

export interface NewOptions {
  readonly cell?: string
  readonly every?: string
  readonly awake?: string
  readonly draws?: string
  readonly rests?: string
  readonly place?: string
  readonly panel?: string
  readonly title?: string
  readonly json?: boolean
}

interface Question {
  readonly answer: 'cell' | 'interval' | 'awakeFor' | 'awakeCurrent' | 'restCurrent'
  readonly option: 'cell' | 'every' | 'awake' | 'draws' | 'rests'
  readonly words: string
}

/** For editors that complete and check by the file's first line. */
const SCHEMA = new URL('../../schema/outpost.schema.json', import.meta.url)

const QUESTIONS: readonly Question[] = [
  { answer: 'cell', option: 'cell', words: 'Which cell feeds it? (LR6, 2 x LR6, Li-ion 2000 mAh)' },
  { answer: 'interval', option: 'every', words: 'How often does it wake? (10 min)' },
  { answer: 'awakeFor', option: 'awake', words: 'How long is it awake each time? (4 s)' },
  { answer: 'awakeCurrent', option: 'draws', words: 'What does it draw while awake? (25 mA ± 10 %)' },
  { answer: 'restCurrent', option: 'rests', words: 'And between wakes? (20 µA)' },
]

export async function newCommand(file: string, options: NewOptions): Promise<void> {
  const given = await answersFrom(options)
  const { title, place, panel } = options
  const extra = Object.fromEntries(
    Object.entries({ title, place, panel }).filter(([, answer]) => answer !== undefined),
  )
  const schema = relative(dirname(resolve(file)), fileURLToPath(SCHEMA)).replaceAll('\\', '/')
  const result = newOutpost({ ...given, ...extra }, schema)
  if (!result.ok)
    throw new Refusal(
      result.problems
        .map(({ answer, code, message, expected, cure }) => {
          const option = QUESTIONS.find((question) => question.answer === answer)?.option ?? answer
          const onLine = cureOnLine(code, expected, given.cell) ?? cure
          return `--${option}: ${message} [${code}]\n  expected: ${expected}\n  cure: ${onLine}`
        })
        .join('\n\n'),
    )
  try {
    await writeWhole(file, result.text, { fresh: true })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST')
      throw new Refusal(`${file} exists already and is left as it is. Name another file.`)
    throw unwritable(file, error)
  }
  if (options.json) process.stdout.write(`${JSON.stringify({ file, text: result.text }, null, 2)}\n`)
  else process.stdout.write(`Wrote ${file}. Next: overwinter forecast ${file}\n`)
}

/** A cure in the words of the command line, where that of the reader speaks of keys in a file; null where it will do. */
function cureOnLine(code: string, expected: string, cell: string): string | null {
  switch (code) {
    case 'cell-needs-capacity': {
      const [, size] = /"(.+)"/.exec(expected) ?? []
      return `write the size behind it: --cell "${cell.trim()} ${size ?? '2000 mAh'}"`
    }
    case 'empty-value':
      return 'write something, or leave the option out'
    default:
      return null
  }
}

/** Options first; what they leave open is asked for on a terminal, and an error elsewhere. */
async function answersFrom(options: NewOptions): Promise<Pick<Answers, Question['answer']>> {
  const open = QUESTIONS.filter(({ option }) => options[option] === undefined)
  if (open.length > 0 && process.stdin.isTTY !== true)
    throw new Refusal(
      `Missing: ${open.map(({ option }) => `--${option}`).join(', ')}. Give them as options, or run this in a terminal to be asked.`,
    )
  const asking = open.length > 0 ? createInterface({ input: process.stdin, output: process.stdout }) : null
  const answers: Record<string, string> = {}
  for (const { answer, option, words } of QUESTIONS)
    answers[answer] = options[option] ?? (await asking?.question(`${words} `)) ?? ''
  asking?.close()
  return answers as Pick<Answers, Question['answer']>
}
