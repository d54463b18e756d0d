/** An outpost file in, what its firmware needs out: C header and source, tables as JSON, the checklist. */
import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { basename } from 'node:path'
import { fileURLToPath } from 'node:url'
import { cHeader } from '../handoff/c-header.ts'
import { cSource } from '../handoff/c-source.ts'
import { prefixProblem } from '../handoff/c-text.ts'
import { checklistToMarkdown } from '../handoff/checklist-markdown.ts'
import { handoffOf } from '../handoff/compile.ts'
import type { ClockKeeps, Handoff } from '../handoff/handoff.ts'
import { PLAIN } from '../report/terminal.ts'
import { handoffToTerminal } from './handoff-text.ts'
import { type OutpostSource, openDesign } from './open-design.ts'
import { Refusal } from './refusal.ts'
import { writeTogether } from './write-together.ts'

/** So many draws settle the ends of a 90 % interval to a few per cent of its width. */
const DRAWS = 1000
/** In every text, so that a later run knows its own files. */
const MARK = 'overwinter handoff'
const FINGERPRINT_DIGITS = 12

export interface HandoffChoices {
  readonly prefix: string
  readonly bcd: boolean
  readonly clock: ClockKeeps
  readonly seed: number
  readonly variant: string | null
  /** The calendar year whose clock changes count as the rule. */
  readonly calendarYear: number
  readonly colour: boolean
}

export interface HandoffFiles {
  readonly handoff: Handoff
  /** Name to text. */
  readonly files: Readonly<Record<string, string>>
}

/** Throws a Refusal that says where and why a design cannot be handed over. */
export async function handoffFile(source: OutpostSource, choices: HandoffChoices): Promise<HandoffFiles> {
  const problem = prefixProblem(choices.prefix)
  if (problem !== null)
    throw new Refusal(`--prefix: "${choices.prefix}" cannot begin names in C: ${problem}. Try "outpost".`)
  const { path, design, text, refuse } = await openDesign(source, choices.variant, choices.colour)
  const result = handoffOf(design.outpost, {
    origin: {
      title: design.outpost.title,
      file: basename(path),
      fingerprint: createHash('sha256').update(text).digest('hex').slice(0, FINGERPRINT_DIGITS),
      variant: choices.variant,
      version: await ownVersion(),
      seed: choices.seed,
      draws: DRAWS,
    },
    clock: choices.clock,
    year: choices.calendarYear,
  })
  if (!result.ok) throw refuse(result.obstacles)
  const { handoff } = result
  const style = { prefix: choices.prefix.toLowerCase(), bcd: choices.bcd }
  return {
    handoff,
    files: {
      [`${style.prefix}.h`]: cHeader(handoff, style),
      [`${style.prefix}.c`]: cSource(handoff, style),
      [`${style.prefix}.json`]: `${JSON.stringify({ writtenBy: MARK, ...handoff }, null, 2)}\n`,
      [`${style.prefix}-before-rest.md`]: checklistToMarkdown(handoff),
    },
  }
}

/** All of them or none; files of the same names that are not ours are left alone, with a Refusal. */
export const writeHandoff = (folder: string, { files }: HandoffFiles): Promise<string[]> =>
  writeTogether(folder, files, MARK)

/** The page of the documentation that shows an example's output, with that output as it is today: path to text. */
export async function handoffDocs(): Promise<Record<string, string>> {
  const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
  const { handoff, files } = await handoffFile(at('examples/fjord-tide-hut.outpost.yaml'), {
    prefix: 'tide',
    bcd: true,
    clock: 'local time',
    seed: 1,
    variant: null,
    calendarYear: 2025,
    colour: false,
  })
  const shown = { terminal: handoffToTerminal(handoff, PLAIN), ...files }
  const page = await readFile(at(DOCS), 'utf8')
  return { [DOCS]: Object.entries(shown).reduce((text, [name, made]) => withBlock(text, name, made), page) }
}

const DOCS = 'docs/handoff.md'

/** The page with `made` in the fence that follows the mark of `name`; a page without that mark stays as it is. */
const withBlock = (page: string, name: string, made: string): string =>
  page.replace(
    new RegExp(`(<!-- made: ${name.replaceAll('.', '\\.')} -->\n\`\`\`\\w*\n).*?(?<=\n)(\`\`\`\n)`, 's'),
    (_, before: string, after: string) => `${before}${made}${after}`,
  )

async function ownVersion(): Promise<string> {
  const about = await readFile(new URL('../../package.json', import.meta.url), 'utf8')
  return (JSON.parse(about) as { version: string }).version
}
