/**
 * What is typed into a field, while it is typed: the file may read it otherwise (without the blank at its end), and an
 * empty field removes its key only when it is left, so that a value is written anew in its place, comment and all.
 */
import { useState } from 'react'
import type { Path } from '../../outpost/file/diagnostic.ts'
import type { FieldValue } from '../../outpost/file/field-value.ts'
import { openedNow, useDraft } from '../draft/keeper.ts'
import { useForm, valueNow } from './form.ts'
import { isStillTyped, type Typed } from './typed.ts'

export function useTyped(path: Path, label: string) {
  const form = useForm()
  const turns = useDraft()?.turns ?? 0
  const value = form.valueAt(path)
  const written = textIn(value)
  const [typed, setTyped] = useState<Typed | null>(null)
  const isMine = typed !== null && isStillTyped(typed, { written, turns })
  const text = isMine ? typed.text : written
  return {
    text,
    source: value.kind === 'text' ? value.source : null,
    /** A mapping or list stands there, which no single field can show. */
    isNested: value.kind === 'map' || value.kind === 'list',
    onText(next: string) {
      if (next.trim() !== '') form.setValue(path, next.trim(), label)
      const now = openedNow()
      setTyped({
        text: next,
        left: textIn(valueNow(path)),
        turns: now.is === 'open' ? now.draft.turns : 0,
      })
    },
    onLeave() {
      if (isMine && text.trim() === '' && written !== '') form.setValue(path, '', label)
      setTyped(null)
    },
  }
}

const textIn = (value: FieldValue): string => (value.kind === 'text' ? value.text : '')
