/** A recording beside an outpost file, as `adopt` and `check` are asked for it. */
import { createInterface } from 'node:readline/promises'
import { readEnvironment } from '../workbench/environment.ts'
import { openInstrument } from '../workbench/instrument-file.ts'
import {
  doubtLines,
  type MatchedRecording,
  matchedRecording,
  stateInWords,
  type Where,
} from '../workbench/matched-recording.ts'
import { type OpenDesign, openDesign } from '../workbench/open-design.ts'
import { Refusal } from '../workbench/refusal.ts'
import { openShown } from './open-shown.ts'
import { readChoices, type SourceOptions } from './source-options.ts'

export interface MatchOptions extends SourceOptions {
  readonly map?: readonly string[]
  readonly at: Where
  readonly instrument?: string
  readonly range?: readonly string[]
  readonly variant?: string
}

type Kind = MatchedRecording['match']['doubts'][number]['kind']

/** Doubts of the kinds in `settle` are put to the person at the terminal; where there is none, they are a Refusal. */
export async function openMatched(
  source: string,
  file: string,
  options: MatchOptions,
  settle: readonly Kind[],
): Promise<{ readonly open: OpenDesign; readonly matched: MatchedRecording; readonly close: () => void }> {
  const { errIsTerminal, wantsColour } = readEnvironment()
  const colour = errIsTerminal && wantsColour
  const open = await openDesign(file, options.variant ?? null, colour)
  const instrument =
    options.instrument === undefined ? null : await openInstrument(options.instrument, colour)
  const recording = await openShown(source, readChoices(options), false)
  const match = (maps: readonly string[]) =>
    matchedRecording(open, recording, { instrument, maps, where: options.at, ranges: options.range ?? [] })
  try {
    const maps = options.map ?? []
    let matched = match(maps)
    const doubts = matched.match.doubts.filter(({ kind }) => settle.includes(kind))
    if (doubts.length > 0) matched = match([...maps, ...(await answers(matched, doubts))])
    return { open, matched, close: () => recording.close() }
  } catch (error) {
    recording.close()
    throw error
  }
}

/** The states that somebody has to name, with the options that would. */
function doubtsInWords(doubts: MatchedRecording['match']['doubts'], matched: MatchedRecording): string {
  const { states, steps: stepNames } = matched.names
  const options = doubts.flatMap(({ state, steps }) => [
    ...steps.map((step) => `  --map "${states[state]} = ${stepNames[step]}"`),
    `  --map "${states[state]} = none"`,
  ])
  return [
    'It is not clear which state is which step:',
    ...doubtLines(doubts, matched),
    'Say so with --map, once for each of these states ("rest" and the names of standing drains will do too):',
    ...new Set(options),
  ].join('\n')
}

async function answers(
  matched: MatchedRecording,
  doubts: MatchedRecording['match']['doubts'],
): Promise<string[]> {
  if (process.stdin.isTTY !== true) throw new Refusal(doubtsInWords(doubts, matched))
  const { names, reading } = matched
  const choices = [...names.steps, 'rest', ...names.drains, 'none']
  const asking = createInterface({ input: process.stdin, output: process.stderr })
  try {
    const maps: string[] = []
    for (const state of new Set(doubts.map((doubt) => doubt.state))) {
      const name = names.states[state]
      const why = doubts.filter((doubt) => doubt.state === state)
      process.stderr.write(`${doubtLines(why, matched).join('\n')}\n`)
      process.stderr.write(`State ${name} draws ${stateInWords(reading.states[state])}. Which step is it?\n`)
      process.stderr.write(choices.map((choice, k) => `  ${k + 1}  ${choice}\n`).join(''))
      maps.push(`${name} = ${await chosen(asking, choices)}`)
    }
    return maps
  } finally {
    asking.close()
  }
}

async function chosen(
  asking: ReturnType<typeof createInterface>,
  choices: readonly string[],
): Promise<string> {
  for (;;) {
    const answer = (await asking.question('Number or name: ')).trim()
    const choice =
      choices[Number(answer) - 1] ?? choices.find((each) => each.toLowerCase() === answer.toLowerCase())
    if (choice !== undefined) return choice
  }
}
