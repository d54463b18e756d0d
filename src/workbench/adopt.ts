/** Measured steps, rest and drains into an outpost file: what would change, with the rest of the file left as it is. */
import { pathText } from '../outpost/file/diagnostic.ts'
import { parseOutpostDocument } from '../outpost/file/document.ts'
import { type NumberChange, type Splice, withNumbers } from '../outpost/file/edit.ts'
import { formatDiagnostic } from '../outpost/file/format-diagnostic.ts'
import { readOutpost } from '../outpost/file/read.ts'
import type { Role } from '../recording/match-steps.ts'
import { beyondInWords, flawSentences } from '../report/recording-words.ts'
import type { Adopted } from './adopt-numbers.ts'
import { drainNumber, restNumber } from './adopt-rest.ts'
import { stepNumbers } from './adopt-step.ts'
import type { MatchedRecording } from './matched-recording.ts'
import type { OpenDesign } from './open-design.ts'
import { Refusal } from './refusal.ts'

export interface Adoption {
  readonly before: string
  readonly after: string
  readonly splices: readonly Splice[]
  readonly numbers: readonly NumberChange[]
  readonly notes: readonly string[]
}

/** Throws a Refusal where a place of the file cannot be edited, or what was measured contradicts the rest of the file. */
export function adoption(open: OpenDesign, matched: MatchedRecording): Adoption {
  const { path: file, text: before } = open
  const parts = [...stepParts(matched), restPart(matched), ...drainParts(matched)]
  const numbers = parts
    .flatMap((part) => part.numbers)
    .map(({ path, text, states }): NumberChange => ({ path, text, source: sourceOf(matched, states) }))
  const edited = withNumbers(parseOutpostDocument(before), numbers)
  if (!edited.ok)
    throw new Refusal(
      `${file}: ${pathText(edited.path)} cannot be written without touching more than its value: ${edited.why}. Give it a value of its own there, on one line, and run this again.`,
    )
  checkAfter(open, edited.text)
  const notes = [
    ...flawSentences(matched.reading.file, matched.reading.flawTotals),
    ...parts.flatMap((part) => part.notes),
    ...clippedNotes(matched, parts),
    ...beyondInWords(matched.reading),
  ]
  return { before, after: edited.text, splices: edited.splices, numbers, notes }
}

/** Of what is written although it was clipped, since somebody named the state all the same. */
function clippedNotes({ isClipped, names }: MatchedRecording, parts: readonly Adopted[]): string[] {
  const states = new Set(parts.flatMap(({ numbers }) => numbers.flatMap((number) => number.states)))
  return [...states]
    .filter((state) => isClipped[state])
    .map(
      (state) => `State ${names.states[state]} is clipped: what is written of it is less than what flowed.`,
    )
}

function stepParts({ wake, measured, samples, analysis, always }: MatchedRecording): Adopted[] {
  const boots = wake.resume === 'restart' ? wake.boot.length : 0
  return measured.steps.map((found, k) => {
    const isBoot = k < boots
    const path = isBoot ? ['wake', 'boot', k] : ['wake', 'steps', k - boots]
    const step = isBoot ? wake.boot[k] : wake.steps[k - boots]
    return found === null
      ? { numbers: [], notes: [`"${step.name}" was not seen and stays as it is.`] }
      : stepNumbers({ found, step, path, samples, analysis, always })
  })
}

function restPart({ measured, match, always }: MatchedRecording): Adopted {
  const states = statesThat(match.roles, ({ kind }) => kind === 'rest')
  return restNumber(measured.rest, states, always)
}

function drainParts({ measured, match }: MatchedRecording): Adopted[] {
  return measured.drains.flatMap((drain, k) => {
    const states = statesThat(match.roles, (role) => role.kind === 'drain' && role.drain === k)
    return drain === null ? [] : [drainNumber(drain, k, states)]
  })
}

function statesThat(roles: readonly (readonly Role[])[], wanted: (role: Role) => boolean): number[] {
  return roles.flatMap((own, state) => (own.some(wanted) ? [state] : []))
}

function sourceOf({ reading, names }: MatchedRecording, states: readonly number[]): string {
  const called = states.map((state) => names.states[state])
  return `recording ${reading.file}, state${called.length === 1 ? '' : 's'} ${called.join(' ')}`
}

/** An edit never leaves a file that does not read. */
function checkAfter({ path: file, weather }: OpenDesign, after: string): void {
  const read = readOutpost(after, { weather })
  if (read.ok) return
  const found = read.diagnostics.map((each) =>
    formatDiagnostic(each, after, { fileName: file, colour: false }),
  )
  throw new Refusal(
    `With what was measured the file would no longer hold, so nothing was written:\n\n${found.join('\n\n')}`,
  )
}
