/** The text of the file beside the forms: both are the same truth. What is wrong stands below, and leads to its line. */
import { useEffect, useRef } from 'react'
import { type Path, pathText } from '../../outpost/file/diagnostic.ts'
import { edit, useDraft } from '../draft/keeper.ts'
import { Problem } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { useAnswers } from '../verdict/answers.ts'
import { type Editor, editorIn } from './editor.ts'
import './file-side.css'

export default function FileSide() {
  const draft = useDraft()
  const { diagnostics, text: readText } = useAnswers()
  const parent = useRef<HTMLDivElement>(null)
  const editor = useRef<Editor | null>(null)
  const text = draft?.text ?? ''
  const file = draft?.file ?? null

  // biome-ignore lint/correctness/useExhaustiveDependencies: another file is another editor; its text comes below
  useEffect(() => {
    if (parent.current === null) return
    const made = editorIn(parent.current, text, (next) => edit(next, 'what was typed in the text'))
    editor.current = made
    return () => {
      editor.current = null
      made.destroy()
    }
  }, [file])
  useEffect(() => editor.current?.takeText(text), [text])
  useEffect(() => {
    if (readText === text) editor.current?.takeDiagnostics(diagnostics)
  }, [diagnostics, readText, text])
  useLitField(editor)

  return (
    <aside className="text-side" aria-label="The text of the file">
      <div className="text-head">
        <h2>{draft?.file}</h2>
      </div>
      <p className="hint" id="text-keys">
        Forms and text are one: change either. Tab leads out of the text, Ctrl+Z takes back.
      </p>
      <div ref={parent} className="editor" data-path="" />
      {diagnostics.length > 0 && (
        <ul className="found-wrong" aria-label="What is wrong in the file">
          {diagnostics.map((each) => (
            <li key={`${each.code} ${each.range.start.line} ${each.range.start.column} ${each.variant}`}>
              <button
                type="button"
                className="quiet"
                onClick={() => editor.current?.goTo(each.range.start.line, each.range.start.column)}
              >
                Line {each.range.start.line}
                {each.variant !== null && `, in “${each.variant}”`}
              </button>
              <Problem {...each} />
            </li>
          ))}
        </ul>
      )}
    </aside>
  )
}

/** Lights the line of the field that has the focus. */
function useLitField(editor: { readonly current: Editor | null }): void {
  const form = useForm()
  useEffect(() => {
    const lightOf = (element: Element | null) => {
      const at = element instanceof HTMLElement ? element.dataset.path : undefined
      const value = at === undefined || at === '' ? null : form.valueAt(pathOf(at))
      editor.current?.light(value === null || value.kind === 'absent' ? null : value.line)
    }
    lightOf(document.activeElement)
    const onFocus = ({ target }: FocusEvent) => lightOf(target as Element)
    document.addEventListener('focusin', onFocus)
    return () => document.removeEventListener('focusin', onFocus)
  }, [form, editor])
}

/** `wake.steps[2].for` as keys; the inverse of pathText for keys without dots and brackets. */
function pathOf(text: string): Path {
  const path = [...text.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map(([, index, key]) =>
    index === undefined ? key : Number(index),
  )
  return pathText(path) === text ? path : []
}
