import { expect, test } from 'vitest'
import { parseOutpostDocument } from '../../outpost/file/document.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import { valueAt } from '../../outpost/file/field-value.ts'
import { changedOnDisk, type Draft, edited, opened, redone, undone } from '../draft/draft.ts'
import { isStillTyped, type Standing, type Typed } from './typed.ts'

const PATH = ['rest']
const draft = opened({ file: 'hut', text: 'rest: 1.6 s ± 0.1 s\nother: 1\n', version: 'v1' })

const standing = ({ text, turns }: Draft): Standing => {
  const value = valueAt(parseOutpostDocument(text), PATH)
  return { written: value.kind === 'text' ? value.text : '', turns }
}

/** The field's text goes into the file, but for one that is empty. */
function type(now: Draft, text: string): readonly [Draft, Typed] {
  const changed = withValue(parseOutpostDocument(now.text), PATH, text.trim())
  const after = text.trim() === '' || !changed.ok ? now : edited(now, changed.text, 'rest', 0)
  return [after, { text, left: standing(after).written, turns: after.turns }]
}

test('it shows what is typed, though the file reads it without the blank at its end', () => {
  const [after, typed] = type(draft, '1.6 s ± ')
  expect(standing(after).written).toBe('1.6 s ±')
  expect(isStillTyped(typed, standing(after))).toBe(true)
})

test('a single stroke that is undone is gone from the field, and stays so when it is done again', () => {
  const [after, typed] = type(draft, '.6 s ± 0.1 s')
  const back = undone(after)
  expect(standing(back).written).toBe('1.6 s ± 0.1 s')
  expect(isStillTyped(typed, standing(back))).toBe(false)
  expect(isStillTyped(typed, standing(redone(back)))).toBe(false)
})

test('an empty field, which waits until it is left, is filled again by undo', () => {
  const [before] = type(draft, '2 s')
  const [after, typed] = type(before, '')
  expect(isStillTyped(typed, standing(after))).toBe(true)
  expect(isStillTyped(typed, standing(undone(after)))).toBe(false)
})

test('the value that the disk brings takes the place of what was typed; another line on the disk does not', () => {
  const [after, typed] = type(draft, '2 s ')
  const saved = { ...after, base: { text: after.text, version: 'v2' } }
  const theirs = (text: string) => changedOnDisk(saved, { file: 'hut', text, version: 'v3' })
  expect(isStillTyped(typed, standing(theirs('rest: 1.6 s ± 0.1 s\nother: 1\n')))).toBe(false)
  expect(isStillTyped(typed, standing(theirs('rest: 2 s\nother: 2\n')))).toBe(true)
})
