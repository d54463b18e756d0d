/** A point of the frontier taken over into the file: its cell, its panel, its interval, as one edit that one can undo. */
import type { OfOutpost } from '../../api/work.ts'
import type { Sized } from '../../decisions/sizing.ts'
import { parseOutpostDocument } from '../../outpost/file/document.ts'
import { openedNow, useDraft } from '../draft/keeper.ts'
import { useForm } from '../form/form.ts'
import { useRoute } from '../route.ts'
import { designEdits, type Size } from './design-edits.ts'

/** Null where the file has it; otherwise a sentence that says why not. `words` name it in "Undone: …". */
export function useTakeDesign(asked: OfOutpost, own: Sized): (chosen: Size, words: string) => string | null {
  const form = useForm()
  return (chosen, words) => {
    const now = openedNow()
    if (now.is !== 'open' || now.draft.file !== asked.file)
      return 'Another outpost is open than the one that was sized. Size it again.'
    const sized = { document: parseOutpostDocument(asked.text), variant: asked.variant, own }
    const taken = designEdits(sized, form.document, chosen)
    if (!taken.ok) return taken.why
    const isWritten = form.inOneStep(`taking over ${words}`, taken.edits)
    return isWritten ? null : 'The file cannot be changed there by a press; what is in the way stands above.'
  }
}

/** Where squares are not of what is on the page: what they are of, and what a press does. Null where they are. */
export function useWhatSquaresAreOf(asked: OfOutpost): string | null {
  const draft = useDraft()
  const { variant } = useRoute()
  const hasChanged = draft?.text !== asked.text
  if (asked.variant !== null)
    return `The squares are of the variant “${asked.variant}”${hasChanged ? ' as it was when it was sized' : ''}. A press changes the file, and only what the variant shares with it.`
  if (variant !== null)
    return `The squares are of the file as written${hasChanged ? ', as it was when it was sized' : ''}, not of the variant “${variant}”. A press changes the file.`
  return hasChanged
    ? 'The squares are of the design as it was when it was sized. A press sets cell, panel and interval to what its square says, whatever they are now.'
    : null
}
