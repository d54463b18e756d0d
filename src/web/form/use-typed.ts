/**
 * What is typed into a field, while it is typed: the file may read it otherwise (without the blank at its end), and an
 * empty field removes its key only when it is left, so that a value is written anew in its place, comment and all.
 */
import { useState } from 'react'
import type { Path } from '../../outpost/file/diagnostic.ts'
import { useForm } from './form.ts'

export function useTyped(path: Path, label: string) {
  const form = useForm()
  const value = form.valueAt(path)
  const written = value.kind === 'text' ? value.text : ''
  const [typed, setTyped] = useState<{ readonly text: string; readonly written: string } | null>(null)
  // Another hand changed the file (undo, the text beside, the disk): what was typed is past.
  const isMine = typed !== null && (typed.written === written || typed.text.trim() === written)
  const text = isMine ? typed.text : written
  return {
    text,
    source: value.kind === 'text' ? value.source : null,
    /** A mapping or list stands there, which no single field can show. */
    isNested: value.kind === 'map' || value.kind === 'list',
    onText(next: string) {
      setTyped({ text: next, written })
      if (next.trim() !== '') form.setValue(path, next.trim(), label)
    },
    onLeave() {
      if (isMine && text.trim() === '' && written !== '') form.setValue(path, '', label)
      setTyped(null)
    },
  }
}
