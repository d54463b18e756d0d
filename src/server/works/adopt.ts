import { z } from 'zod'
import type { AdoptPreview } from '../../api/bench.ts'
import { pathText } from '../../outpost/file/diagnostic.ts'
import { parseOutpostDocument } from '../../outpost/file/document.ts'
import { valueAt } from '../../outpost/file/field-value.ts'
import type { Doubt } from '../../recording/match-steps.ts'
import { unifiedDifference } from '../../report/difference-text.ts'
import type { Adoption } from '../../workbench/adopt.ts'
import { type MatchedRecording, stateInWords } from '../../workbench/matched-recording.ts'
import { roleNames } from '../../workbench/role-names.ts'
import { askedMatch, matchAsked } from './asked-match.ts'
import type { WorkOf } from './work.ts'

export const adopt: WorkOf<'adopt'> = {
  asked: z.strictObject({ work: z.literal('adopt'), ...askedMatch }),
  run: async (asked, doing) => {
    const { adoption } = await import('../../workbench/adopt.ts')
    return matchAsked(asked, doing, (matched, open) => ({
      ...statesOf(matched),
      adoption: matched.match.doubts.length > 0 ? null : shown(asked.outpost.file, adoption(open, matched)),
    }))
  },
}

const DOUBTS: Readonly<Record<Doubt['kind'], string>> = {
  ambiguous: 'it may be more than one of them',
  left: 'it is like no step that is left',
  unlike: 'it is far from what the file says of the step',
  clipped: 'it is clipped, so that the true current is higher than what would be written',
}

function statesOf({ reading, match, names }: MatchedRecording): Pick<AdoptPreview, 'states' | 'roles'> {
  return {
    states: reading.states.map((state, k) => {
      const doubt = match.doubts.find((each) => each.state === k) ?? null
      return {
        name: state.name,
        words: stateInWords(state),
        taken: doubt === null ? roleNames(match.roles[k], names) : null,
        candidates: (doubt?.steps ?? []).map((step) => names.steps[step]),
        doubt: doubt && DOUBTS[doubt.kind],
      }
    }),
    roles: [...names.steps, 'rest', ...names.drains, 'none'],
  }
}

function shown(
  file: string,
  { before, after, splices, numbers, notes }: Adoption,
): NonNullable<AdoptPreview['adoption']> {
  const document = parseOutpostDocument(before)
  return {
    after,
    difference: unifiedDifference(file, before, splices),
    numbers: numbers.map(({ path, text }) => {
      const now = valueAt(document, path)
      return { path: pathText(path), before: now.kind === 'text' ? now.text : null, after: text }
    }),
    notes,
  }
}
