/**
 * The draft on the desk, and those that were left before they could be saved: leaving an outpost loses nothing. Pure, as
 * the draft is: when it is written and read is the keeper's.
 */
import type { FileText } from '../../api/files.ts'
import { changedOnDisk, type Draft, isToWrite, isUnsaved, opened } from './draft.ts'

export type Opened =
  | { readonly is: 'none' }
  | { readonly is: 'opening'; readonly file: string }
  | { readonly is: 'refused'; readonly file: string; readonly why: string }
  | { readonly is: 'open'; readonly draft: Draft }

export interface Drafts {
  readonly desk: Opened
  /** At most one of a file, and none of the file on the desk. */
  readonly held: readonly Draft[]
}

export const EMPTY: Drafts = { desk: { is: 'none' }, held: [] }

export const allOf = ({ desk, held }: Drafts): readonly Draft[] =>
  desk.is === 'open' ? [desk.draft, ...held] : held

export const toWrite = (drafts: Drafts): readonly Draft[] => allOf(drafts).filter(isToWrite)

/** The desk is for something else; what is not saved of the draft on it is held. */
export function leftFor({ desk, held }: Drafts, next: Opened): Drafts {
  const isHeld = desk.is === 'open' && isUnsaved(desk.draft)
  return { desk: next, held: isHeld ? [...held, desk.draft] : held }
}

/**
 * What was asked for comes onto the desk, unless it is for something else by now: the draft that was held, over what the
 * disk says; where none was, the file, or why it could not be read.
 */
export function arrived(drafts: Drafts, file: string, read: FileText | { readonly why: string }): Drafts {
  const { desk, held } = drafts
  if (desk.is !== 'opening' || desk.file !== file) return drafts
  const kept = held.find((draft) => draft.file === file)
  if (kept !== undefined) {
    const draft = 'why' in read ? kept : changedOnDisk(kept, read)
    return { desk: { is: 'open', draft }, held: held.filter((each) => each !== kept) }
  }
  return { desk: 'why' in read ? { is: 'refused', file, why: read.why } : open(read), held }
}

const open = (text: FileText): Opened => ({ is: 'open', draft: opened(text) })

/** Changes the draft of a file, wherever it lies; one that is held is let go once it is saved. */
export function withDraft({ desk, held }: Drafts, file: string, how: (draft: Draft) => Draft): Drafts {
  if (desk.is === 'open' && desk.draft.file === file) {
    const draft = how(desk.draft)
    return { desk: draft === desk.draft ? desk : { is: 'open', draft }, held }
  }
  return { desk, held: held.map((each) => (each.file === file ? how(each) : each)).filter(isUnsaved) }
}

/** Lost on purpose: a draft whose file is gone, and which nobody wants any more. */
export const letGo = ({ desk, held }: Drafts, file: string): Drafts => ({
  desk,
  held: held.filter((draft) => draft.file !== file || draft.conflict !== 'gone'),
})
