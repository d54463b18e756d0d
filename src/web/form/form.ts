/** What forms do to the draft: read a value, write a value, add, remove and move entries; comments and order kept. */
import { useMemo } from 'react'
import { type Path, pathText } from '../../outpost/file/diagnostic.ts'
import { type OutpostDocument, parseOutpostDocument } from '../../outpost/file/document.ts'
import { withEntry, withItem, withMovedItem, withoutEntry } from '../../outpost/file/edit-entry.ts'
import type { PlainData } from '../../outpost/file/edit-render.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import { type FieldValue, valueAt } from '../../outpost/file/field-value.ts'
import type { Edited } from '../../outpost/file/splice.ts'
import { edit, openedNow, useDraft } from '../draft/keeper.ts'
import { refusedEdit } from '../draft/refused-edit.ts'

export interface Form {
  readonly document: OutpostDocument
  readonly valueAt: (path: Path) => FieldValue
  /** Keys of a mapping, or indices of a list, as the file has them; empty where there is none. */
  readonly entriesAt: (path: Path) => readonly (string | number)[]
  /** An empty text removes the key. `what` names it in "Undone: …". */
  readonly setValue: (path: Path, text: string, what: string) => void
  readonly addEntry: (path: Path, key: string, entry: PlainData) => void
  readonly addItem: (path: Path, index: number, entry: PlainData) => void
  readonly remove: (path: Path, what: string) => void
  readonly move: (path: Path, from: number, to: number, what: string) => void
  /** Several edits that are undone as one: each is made on what the one before it left. False where one cannot be made. */
  readonly inOneStep: (what: string, edits: readonly DocumentEdit[]) => boolean
}

export type DocumentEdit = (document: OutpostDocument) => Edited

let parsed: OutpostDocument = parseOutpostDocument('')
function documentOf(text: string): OutpostDocument {
  if (parsed.source !== text) parsed = parseOutpostDocument(text)
  return parsed
}

export function useForm(): Form {
  const text = useDraft()?.text ?? ''
  return useMemo(() => formOf(documentOf(text)), [text])
}

/** As the draft has it at this moment, which may be ahead of what is drawn. */
export function valueNow(path: Path): FieldValue {
  const now = openedNow()
  return now.is === 'open' ? valueAt(documentOf(now.draft.text), path) : { kind: 'absent' }
}

function formOf(document: OutpostDocument): Form {
  return {
    document,
    valueAt: (path) => valueAt(document, path),
    entriesAt(path) {
      const value = valueAt(document, path)
      if (value.kind === 'map') return value.keys
      return value.kind === 'list' ? Array.from({ length: value.length }, (_, i) => i) : []
    },
    setValue: (path, text, what) =>
      change((now) => withValue(now, path, text), `${what} (${pathText(path)})`),
    addEntry: (path, key, entry) =>
      change((now) => withEntry(now, path, key, entry), `adding ${pathText([...path, key])}`),
    addItem: (path, index, entry) =>
      change((now) => withItem(now, path, index, entry), `adding ${pathText([...path, index])}`),
    remove: (path, what) => change((now) => withoutEntry(now, path), what),
    move: (path, from, to, what) => change((now) => withMovedItem(now, path, from, to), what),
    inOneStep: (what, edits) => change((now) => inTurn(now, edits), what),
  }
}

/** Either all of them, or none. */
function inTurn(document: OutpostDocument, edits: readonly DocumentEdit[]): Edited {
  let all: Edited = { ok: true, text: document.source, splices: [] }
  for (const edit of edits) {
    if (all.ok) all = edit(documentOf(all.text))
  }
  return all
}

/** Against the draft as it is when the edit is made, not as it was drawn. False where it was refused. */
function change(how: DocumentEdit, what: string): boolean {
  const now = openedNow()
  if (now.is !== 'open') return false
  const edited = how(documentOf(now.draft.text))
  refusedEdit.set(
    edited.ok
      ? null
      : `${pathText(edited.path)} cannot be changed here: ${edited.why}. Change it in the text.`,
  )
  if (edited.ok) edit(edited.text, what)
  return edited.ok
}
