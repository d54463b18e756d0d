import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  changedOnDisk,
  type Draft,
  edited,
  isToWrite,
  mergedText,
  opened,
  redone,
  saved,
  settled,
  undone,
} from './draft.ts'

const TEXT = 'overwinter: 1\ntitle: Hut\n\nrest: 20 µA\n'
const draft = (text = TEXT) => opened({ file: 'hut.outpost.yaml', text, version: 'v1' })
const onDisk = (text: string, version = 'v2') => ({ file: 'hut.outpost.yaml', text, version })

describe('undo', () => {
  test('any number of edits, undone, give the text of before; done again, that of after', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.string(), fc.string(), fc.nat(5000))), (edits) => {
        let now = 0
        let all = draft()
        for (const [text, what, pause] of edits) {
          now += pause
          all = edited(all, text, what, now)
        }
        let back: Draft = all
        while (back.past.length > 0) back = undone(back)
        expect(back.text).toBe(TEXT)
        while (back.future.length > 0) back = redone(back)
        expect(back.text).toBe(all.text)
      }),
    )
  })

  test('strokes into one field that follow each other at once are one step, into another they are not', () => {
    let all = edited(draft(), 'a', 'title', 0)
    all = edited(all, 'ab', 'title', 400)
    expect(all.past).toHaveLength(1)
    expect(edited(all, 'abc', 'rest', 500).past).toHaveLength(2)
    expect(edited(all, 'abc', 'title', 9000).past).toHaveLength(2)
  })

  test('an edit after undo forgets what was undone', () => {
    const all = undone(edited(draft(), 'a', 'title', 0))
    expect(edited(all, 'b', 'title', 10).future).toEqual([])
  })
})

describe('the disk', () => {
  test('what was written is saved, unless more was typed meanwhile', () => {
    const typed = edited(draft(), 'a', 'title', 0)
    expect(saved(typed, 'a', 'v2').saving.is).toBe('saved')
    expect(saved(edited(typed, 'ab', 'title', 1), 'a', 'v2').saving.is).toBe('waiting')
  })

  test('a change by others is taken where nothing was typed, and undo brings back what stood here', () => {
    const taken = changedOnDisk(draft(), onDisk('other\n'))
    expect(taken).toMatchObject({ text: 'other\n', saving: { is: 'saved' }, conflict: null })
    expect(undone(taken).text).toBe(TEXT)
  })

  test('changes of different lines are merged', () => {
    const ours = edited(draft(), TEXT.replace('Hut', 'Hut by the sea'), 'title', 0)
    const merged = changedOnDisk(ours, onDisk(TEXT.replace('20 µA', '30 µA')))
    expect(merged.text).toBe('overwinter: 1\ntitle: Hut by the sea\n\nrest: 30 µA\n')
    expect(merged).toMatchObject({ saving: { is: 'waiting' }, base: { version: 'v2' } })
  })

  test('changes of the same line are offered, and either choice can be undone', () => {
    const ours = edited(draft(), TEXT.replace('20 µA', '25 µA'), 'rest', 0)
    const both = changedOnDisk(ours, onDisk(TEXT.replace('20 µA', '30 µA')))
    expect(both.conflict).not.toBeNull()
    expect(both.text).toContain('25 µA')
    const theirs = settled(both, 'theirs')
    expect(theirs.text).toContain('30 µA')
    expect(undone(theirs).text).toContain('25 µA')
    expect(settled(both, 'ours')).toMatchObject({ base: { version: 'v2' }, saving: { is: 'waiting' } })
  })

  test('a file that is gone is told, and nothing of the draft is lost', () => {
    expect(changedOnDisk(draft(), null)).toMatchObject({ conflict: 'gone', text: TEXT })
  })

  test('a file that is back as it was is saved to again, with what was typed meanwhile', () => {
    const back = changedOnDisk(changedOnDisk(draft(), null), onDisk(TEXT, 'v1'))
    expect(back).toMatchObject({ text: TEXT, conflict: null, saving: { is: 'saved' } })
    const typed = edited(changedOnDisk(draft(), null), 'typed', 'title', 0)
    const saving = changedOnDisk(typed, onDisk(TEXT, 'v1'))
    expect(saving).toMatchObject({ text: 'typed', conflict: null, saving: { is: 'waiting' } })
    expect(isToWrite(saving)).toBe(true)
  })

  test('a change of the same line that is taken back on the disk leaves nothing to choose', () => {
    const ours = edited(draft(), TEXT.replace('20 µA', '25 µA'), 'rest', 0)
    const both = changedOnDisk(ours, onDisk(TEXT.replace('20 µA', '30 µA')))
    expect(isToWrite(both)).toBe(false)
    const back = changedOnDisk(both, onDisk(TEXT, 'v1'))
    expect(back).toMatchObject({ text: ours.text, conflict: null, base: { version: 'v1' } })
    expect(isToWrite(back)).toBe(true)
  })

  test('a text that is undone to what the disk has is saved', () => {
    expect(undone(edited(draft(), 'a', 'title', 0)).saving.is).toBe('saved')
  })
})

test('a merge loses no line that either side added', () => {
  const line = fc.stringMatching(/^[a-z]{1,6}$/)
  fc.assert(
    fc.property(
      fc.uniqueArray(line, { minLength: 4, maxLength: 12 }),
      line,
      line,
      fc.nat(),
      fc.nat(),
      (base, a, b, i, k) => {
        const insert = (text: string, at: number) => base.toSpliced(at % (base.length + 1), 0, text)
        const merged = mergedText(
          insert(`A${a}`, i).join('\n'),
          base.join('\n'),
          insert(`B${b}`, k).join('\n'),
        )
        if (merged === null) return // both at one place: offered to the user
        expect(merged.split('\n').sort()).toEqual([...base, `A${a}`, `B${b}`].sort())
      },
    ),
  )
})
