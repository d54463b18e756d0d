/**
 * The one truth of what is being edited: the text of an outpost file, how it came to be, and how it stands to the disk.
 * Forms and the text itself change it alike. Pure: what is done with it (saving, asking) is the keeper's.
 */
import { mergeDiff3 } from 'node-diff3'
import type { FileText, Version } from '../../api/files.ts'

export interface Draft {
  readonly file: string
  readonly text: string
  /** As the disk had it when last read or written by us; what a save is based on. */
  readonly base: { readonly text: string; readonly version: Version }
  readonly past: readonly Step[]
  readonly future: readonly Step[]
  /** How often a step was undone or done again: what a field still shows of what was typed is past after that. */
  readonly turns: number
  readonly saving: Saving
  /** Changed on the disk as well, in the same lines: the user chooses. */
  readonly conflict: FileText | 'gone' | null
  /** What happened behind the user's back and went well. */
  readonly notice: string | null
}

export interface Step {
  readonly text: string
  /** What was changed: edits of one thing that follow each other at once are one step. */
  readonly what: string
  readonly at_ms: number
}

export type Saving =
  | { readonly is: 'saved' | 'waiting' | 'under way' }
  | { readonly is: 'refused'; readonly why: string }

const SAME_STEP_MS = 1500
const MOST_STEPS = 500

export function opened({ file, text, version }: FileText): Draft {
  return {
    file,
    text,
    base: { text, version },
    past: [],
    future: [],
    turns: 0,
    saving: { is: 'saved' },
    conflict: null,
    notice: null,
  }
}

/** Something of it stands nowhere but here. */
export const isUnsaved = ({ text, base, conflict }: Draft): boolean => text !== base.text || conflict !== null

/** In a conflict nothing is written until the user chose. */
export const isToWrite = ({ text, base, conflict }: Draft): boolean => text !== base.text && conflict === null

/** Of a text that was just changed. */
const standing = (text: string, base: Draft['base']): Saving => ({
  is: text === base.text ? 'saved' : 'waiting',
})

/** `what` names the thing changed, such as the path of a field. */
export function edited(draft: Draft, text: string, what: string, now_ms: number): Draft {
  if (text === draft.text) return draft
  const last = draft.past.at(-1)
  const goesOn = last !== undefined && last.what === what && now_ms - last.at_ms < SAME_STEP_MS
  const past = goesOn
    ? [...draft.past.slice(0, -1), { ...last, at_ms: now_ms }]
    : [...draft.past, { text: draft.text, what, at_ms: now_ms }].slice(-MOST_STEPS)
  return { ...draft, text, past, future: [], saving: standing(text, draft.base), notice: null }
}

export function undone(draft: Draft): Draft {
  const step = draft.past.at(-1)
  if (step === undefined) return draft
  return {
    ...draft,
    text: step.text,
    past: draft.past.slice(0, -1),
    future: [...draft.future, { ...step, text: draft.text }],
    turns: draft.turns + 1,
    saving: standing(step.text, draft.base),
    notice: `Undone: ${step.what}.`,
  }
}

export function redone(draft: Draft): Draft {
  const step = draft.future.at(-1)
  if (step === undefined) return draft
  return {
    ...draft,
    text: step.text,
    past: [...draft.past, { ...step, text: draft.text, at_ms: 0 }],
    future: draft.future.slice(0, -1),
    turns: draft.turns + 1,
    saving: standing(step.text, draft.base),
    notice: `Done again: ${step.what}.`,
  }
}

export function saved(draft: Draft, text: string, version: Version): Draft {
  const base = { text, version }
  return { ...draft, base, saving: standing(draft.text, base) }
}

/**
 * The disk has other text than the draft was made from: taken as it is where nothing was changed here, merged line by
 * line (three-way) where both were, and offered where both changed the same lines.
 */
export function changedOnDisk(draft: Draft, now: FileText | null): Draft {
  if (now === null) return { ...draft, conflict: 'gone' }
  if (now.version === draft.base.version) return draft.conflict === null ? draft : asBefore(draft)
  const base = { text: now.text, version: now.version }
  if (draft.text === now.text) return { ...draft, base, saving: { is: 'saved' }, conflict: null }
  const step: Step = { text: draft.text, what: 'a change on the disk', at_ms: 0 }
  const taken = { ...draft, base, past: [...draft.past, step], future: [], conflict: null }
  if (draft.text === draft.base.text)
    return {
      ...taken,
      text: now.text,
      saving: { is: 'saved' },
      notice: 'The file was changed on the disk; here is what it says now. Undo brings back what stood here.',
    }
  const merged = mergedText(draft.text, draft.base.text, now.text)
  if (merged === null) return { ...draft, conflict: now }
  return {
    ...taken,
    text: merged,
    saving: standing(merged, base),
    notice: 'The file was changed on the disk as well, in other lines: both changes are in it now.',
  }
}

/** The file is back, or the others took their change back: what was typed here meanwhile can be saved. */
const asBefore = (draft: Draft): Draft => ({
  ...draft,
  saving: standing(draft.text, draft.base),
  conflict: null,
  notice: 'The file on the disk is again as it was before; what stands here is saved to it.',
})

/** The user's choice in a conflict: ours goes over what stands on the disk, theirs takes its place here; both undoable. */
export function settled(draft: Draft, choice: 'ours' | 'theirs'): Draft {
  const { conflict } = draft
  if (conflict === null || conflict === 'gone') return draft
  const base = { text: conflict.text, version: conflict.version }
  if (choice === 'ours') return { ...draft, base, saving: standing(draft.text, base), conflict: null }
  const step: Step = { text: draft.text, what: 'taking what is on the disk', at_ms: 0 }
  return {
    ...draft,
    base,
    text: conflict.text,
    past: [...draft.past, step],
    future: [],
    saving: { is: 'saved' },
    conflict: null,
  }
}

/** Null where both changed the same lines. */
export function mergedText(ours: string, base: string, theirs: string): string | null {
  const lines = (text: string) => text.split('\n')
  const { conflict, result } = mergeDiff3(lines(ours), lines(base), lines(theirs), {
    excludeFalseConflicts: true,
  })
  return conflict ? null : result.join('\n')
}
