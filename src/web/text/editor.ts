/**
 * The editor of the file's text. It holds no truth of its own: what is typed goes to the draft, what the draft becomes by
 * other hands comes back as the smallest splice, so that cursor and scroll stay. Undo is the draft's.
 */
import { defaultKeymap } from '@codemirror/commands'
import { yaml } from '@codemirror/lang-yaml'
import { type Diagnostic as Mark, setDiagnostics } from '@codemirror/lint'
import { Annotation, EditorState, StateEffect, StateField } from '@codemirror/state'
import { Decoration, EditorView, keymap, lineNumbers } from '@codemirror/view'
import type { Diagnostic } from '../../outpost/file/diagnostic.ts'
import { spliceBetween } from '../../outpost/file/splice.ts'
import { editorLook } from './editor-look.ts'

/** Marks a change that came from the draft, which need not hear of it. */
const fromDraft = Annotation.define<true>()
const lightLine = StateEffect.define<number | null>()

/** The line of the field that has the focus. */
const litLine = StateField.define({
  create: () => Decoration.none,
  update(marks, { effects, changes }) {
    for (const effect of effects)
      if (effect.is(lightLine))
        return effect.value === null
          ? Decoration.none
          : Decoration.set([Decoration.line({ class: 'is-field' }).range(effect.value)])
    return marks.map(changes)
  },
  provide: (field) => EditorView.decorations.from(field),
})

export interface Editor {
  readonly takeText: (text: string) => void
  readonly takeDiagnostics: (diagnostics: readonly Diagnostic[]) => void
  /** Counted from 1; null for none. */
  readonly light: (line: number | null) => void
  readonly goTo: (line: number, column: number) => void
  readonly destroy: () => void
}

export function editorIn(parent: HTMLElement, text: string, onText: (text: string) => void): Editor {
  const nonce = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.content ?? ''
  const view = new EditorView({
    parent,
    state: EditorState.create({
      doc: text,
      extensions: [
        EditorView.cspNonce.of(nonce),
        EditorView.contentAttributes.of({
          'aria-label': 'The text of the file',
          'aria-describedby': 'text-keys',
          tabindex: '0',
        }),
        lineNumbers(),
        // Tab is left to the page: it leads on to the next control.
        keymap.of(defaultKeymap),
        yaml(),
        litLine,
        editorLook,
        EditorView.lineWrapping,
        EditorView.updateListener.of((update) => {
          if (
            update.docChanged &&
            update.transactions.every((each) => each.annotation(fromDraft) === undefined)
          )
            onText(update.state.doc.toString())
        }),
      ],
    }),
  })
  const clamp = (line: number) => Math.max(1, Math.min(line, view.state.doc.lines))
  const offset = ({ line, column }: { readonly line: number; readonly column: number }) => {
    const { from, to } = view.state.doc.line(clamp(line))
    return Math.min(from + column - 1, to)
  }
  return {
    takeText(next) {
      const splice = spliceBetween(view.state.doc.toString(), next)
      if (splice === null) return
      const { start, end, text: insert } = splice
      view.dispatch({ changes: { from: start, to: end, insert }, annotations: fromDraft.of(true) })
    },
    takeDiagnostics(diagnostics) {
      const marks = diagnostics.map(({ range, severity, message, expected, cure }): Mark => {
        const from = offset(range.start)
        return {
          from,
          to: Math.max(offset(range.end), from),
          severity,
          message: `${message}. Expected: ${expected}. ${cure}.`,
        }
      })
      view.dispatch(setDiagnostics(view.state, marks))
    },
    light(line) {
      const at = line === null ? null : view.state.doc.line(clamp(line)).from
      view.dispatch({
        effects: [lightLine.of(at), ...(at === null ? [] : [EditorView.scrollIntoView(at, { y: 'center' })])],
      })
    },
    goTo(line, column) {
      const at = offset({ line, column })
      view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: 'center' }) })
      view.focus()
    },
    destroy: () => view.destroy(),
  }
}
