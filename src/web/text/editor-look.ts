/** The editor in the notebook's look: the page's own colours, no more than four inks. */
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language'
import { EditorView } from '@codemirror/view'
import { tags } from '@lezer/highlight'

const frame = EditorView.theme({
  '&': { color: 'var(--ink)', backgroundColor: 'var(--sheet)', fontSize: '0.92rem', maxHeight: '80vh' },
  '&.cm-focused': { outline: '2px solid var(--accent)', outlineOffset: '2px' },
  '.cm-scroller': { fontFamily: 'var(--figures)', lineHeight: '1.5' },
  '.cm-content': { caretColor: 'var(--accent)' },
  '.cm-cursor': { borderLeftColor: 'var(--accent)', borderLeftWidth: '2px' },
  '.cm-gutters': { color: 'var(--faint)', backgroundColor: 'transparent', border: '0' },
  '.cm-activeLine, .cm-activeLineGutter': { backgroundColor: 'transparent' },
  '&.cm-focused .cm-activeLine': { backgroundColor: 'var(--accent-wash)' },
  '.cm-line.is-field': { backgroundColor: 'var(--accent-wash)' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground, ::selection':
    {
      backgroundColor: 'var(--band-wide)',
    },
  '.cm-tooltip': {
    color: 'var(--ink)',
    backgroundColor: 'var(--paper)',
    border: '1px solid var(--rule)',
    maxWidth: '34rem',
    fontFamily: 'var(--words)',
  },
  '.cm-diagnostic': { borderLeft: '3px solid var(--accent)', padding: '0.3rem 0.6rem' },
  '.cm-diagnostic-warning': { borderLeftColor: 'var(--cool)' },
  '.cm-lintRange-error': {
    backgroundImage: 'none',
    textDecoration: 'underline wavy var(--accent)',
    textDecorationSkipInk: 'none',
  },
  '.cm-lintRange-warning': {
    backgroundImage: 'none',
    textDecoration: 'underline dotted var(--cool)',
    textDecorationSkipInk: 'none',
  },
})

const inks = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], color: 'var(--ink)', fontWeight: '600' },
  { tag: tags.comment, color: 'var(--faint)', fontStyle: 'italic' },
  { tag: [tags.string, tags.content, tags.attributeValue], color: 'var(--cool)' },
  { tag: [tags.punctuation, tags.separator, tags.squareBracket, tags.brace], color: 'var(--faint)' },
])

export const editorLook = [frame, syntaxHighlighting(inks)]
