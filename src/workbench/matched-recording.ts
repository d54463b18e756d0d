/** A recording beside the outpost file of the device that it is of: which state is which step, and what was measured. */
import type { Uncertain } from '../quantity/uncertain.ts'
import { upperEnd } from '../recording/gate-decision.ts'
import type { Instrument } from '../recording/instrument.ts'
import { type Doubt, type Match, matchSteps, type Role, type Roles } from '../recording/match-steps.ts'
import { beyondRanges } from '../recording/match-steps-beyond.ts'
import { givenRoles, type Names } from '../recording/match-steps-given.ts'
import { type Measured, measureSteps } from '../recording/match-steps-measure.ts'
import type { Recording } from '../recording/recording.ts'
import { clippedSegments } from '../recording/segments-clipped.ts'
import type { StateReading } from '../report/recording-reading.ts'
import { currentInWords, duration } from '../report/recording-words.ts'
import type { Supply } from '../supply/supply.ts'
import { stepsOf } from '../wake/outcomes.ts'
import type { Drain, Wake } from '../wake/wake.ts'
import type { OpenDesign } from './open-design.ts'
import { rangeMarks } from './range-marks.ts'
import { type ReadRecording, readRecording } from './read-recording.ts'
import { Refusal } from './refusal.ts'

/** Where the instrument sat. */
export type Where = 'rail' | 'cell'

export interface MatchChoices {
  readonly instrument: Instrument | null
  /** As the user wrote them. */
  readonly maps: readonly string[]
  readonly where: Where
  /** Where the instrument's range was set by hand, as the user wrote it. */
  readonly ranges?: readonly string[]
  /** As for reading. */
  readonly onLooked?: (samples: number) => void
}

export interface MatchedRecording extends ReadRecording {
  readonly wake: Wake
  readonly names: Names
  readonly match: Match
  readonly measured: Measured
  /** Drains that the instrument saw beside the steps and the rest; those measured by themselves with what was measured. */
  readonly always: readonly Uncertain[]
  /** Of each state, whether clipped samples lie in it. */
  readonly isClipped: readonly boolean[]
}

/** Throws a Refusal where the recording holds nothing, or the mapping names what is not there. */
export function matchedRecording(
  { design }: OpenDesign,
  recording: Recording,
  choices: MatchChoices,
): MatchedRecording {
  const { wake, supply } = design.outpost
  const { instrument, ranges = [], onLooked } = choices
  const read = readRecording(recording, {
    span: { from_s: null, to_s: null },
    voltage_V: null,
    instrument,
    marks: rangeMarks(ranges, instrument, recording),
    ...(onLooked === undefined ? {} : { onLooked }),
  })
  const { analysis, reading, samples } = read
  const expected = { steps: stepsOf(wake), drains: wake.standing }
  const names = {
    states: reading.states.map(({ name }) => name),
    steps: expected.steps.map(({ name }) => name),
    drains: wake.standing.map(({ name }) => name),
  }
  const given = rolesOf(choices.maps, names)
  const plain = matchSteps(analysis, expected, given)
  const clipped = clippedSegments(analysis.segments, recording.header.flaws)
  const isClipped = reading.states.map((_, state) =>
    analysis.segments.states.some((each, k) => each === state && clipped[k] === 1),
  )
  const match = {
    ...plain,
    doubts: [...plain.doubts, ...clippedDoubts(plain.roles, isClipped, given)],
  }
  const currents = reading.states.map(({ current }) => current)
  const measured = beyondRanges(
    measureSteps(analysis, currents, match.roles, expected, samples.interval_s, clipped),
    match.roles,
    reading.states.map(({ range }) => instrument !== null && range === null),
  )
  const always = [
    ...wake.standing.flatMap((drain, k) =>
      isSeen(drain, supply, choices.where) ? [drainKnown(measured.drains[k], drain.current_A)] : [],
    ),
    ...(choices.where === 'cell' ? quiescentOf(supply) : []),
  ]
  return { ...read, wake, names, match, measured, always, isClipped }
}

/** What was measured of a drain; where that read zero, what the file says, unless the bound is lower. */
function drainKnown(measured: Uncertain | null, written: Uncertain): Uncertain {
  const saysLess = measured?.kind === 'below' && measured.limit >= upperEnd(written)
  return measured === null || saysLess ? written : measured
}

/** Of clipped states, those that nobody named: what would be taken over is less than what flowed. */
function clippedDoubts(
  roles: Roles,
  isClipped: readonly boolean[],
  given: ReadonlyMap<number, readonly Role[]>,
): Doubt[] {
  return roles.flatMap((own, state): Doubt[] => {
    if (!isClipped[state] || given.has(state) || own.every(({ kind }) => kind === 'none')) return []
    const steps = own.flatMap((role) => (role.kind === 'step' ? [role.step] : []))
    return [{ kind: 'clipped', state, steps: [...new Set(steps)] }]
  })
}

function rolesOf(maps: readonly string[], names: Names): Map<number, readonly Role[]> {
  return new Map(
    maps.map((text) => {
      const given = givenRoles(text, names)
      if (!given.ok) throw new Refusal(`--map "${text}": ${given.problem}.`)
      return [given.state, given.roles] as const
    }),
  )
}

/** Without a regulator the rail is the cell. */
const isSeen = ({ from }: Drain, { regulator }: Supply, where: Where): boolean =>
  from === 'rail' || where === 'cell' || regulator.kind === 'none'

function quiescentOf({ regulator }: Supply): readonly Uncertain[] {
  switch (regulator.kind) {
    case 'none':
      return []
    case 'linear':
      return [regulator.quiescent_A]
    default:
      throw new Refusal(
        `Behind a ${regulator.kind} converter the currents of the rail cannot be told from those of the cell. Measure at the rail, behind the converter.`,
      )
  }
}

/** The states that somebody has to name, and why, a line each. */
export function doubtLines(doubts: readonly Doubt[], { reading, names }: MatchedRecording): string[] {
  return doubts.map(({ kind, state, steps }) => {
    const candidates = steps.map((step) => `"${names.steps[step]}"`).join(' or ')
    const words = {
      ambiguous: candidates === '' ? 'may be anything' : `may be ${candidates}`,
      left: 'is like no step that is left',
      unlike: `would be ${candidates}, and is far from what the file says of it`,
      clipped: `is clipped: the true current is higher${candidates === '' ? '' : `, and so is that of ${candidates}`}`,
    }
    return `  state ${names.states[state]} (${stateInWords(reading.states[state])}) ${words[kind]}`
  })
}

export const stateInWords = ({ current, dwell }: StateReading): string =>
  `${currentInWords(current)}${dwell === null ? '' : ` for ${duration(dwell.median_s)}`}`
