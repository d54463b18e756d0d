import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { changedOnDisk, type Draft, edited, saved } from './draft.ts'
import { allOf, arrived, type Drafts, EMPTY, leftFor, letGo, toWrite, withDraft } from './drafts.ts'

const TEXT = 'overwinter: 1\ntitle: Hut\n\nrest: 20 µA\n'
const onDisk = (file: string, text = TEXT, version = 'v1') => ({ file, text, version })
const opening = (drafts: Drafts, file: string) => leftFor(drafts, { is: 'opening', file })
const opened = (drafts: Drafts, file: string) => arrived(opening(drafts, file), file, onDisk(file))
const type = (drafts: Drafts, text: string): Drafts =>
  drafts.desk.is === 'open'
    ? withDraft(drafts, drafts.desk.draft.file, (draft) => edited(draft, text, 'x', 0))
    : drafts
const textOn = ({ desk }: Drafts) => (desk.is === 'open' ? desk.draft.text : desk.is)
const NO_ANSWER = { why: 'The workbench does not answer.' }

describe('leaving an outpost', () => {
  test('holds what is not saved, which is written there too, and brings it back when it is opened again', () => {
    const away = opened(type(opened(EMPTY, 'hut'), 'typed'), 'ford')
    expect(away.held).toMatchObject([{ file: 'hut', text: 'typed' }])
    expect(toWrite(away)).toMatchObject([{ file: 'hut', text: 'typed' }])
    const back = opened(away, 'hut')
    expect(textOn(back)).toBe('typed')
    expect(back.held).toEqual([])
  })

  test('holds nothing that is saved', () => {
    expect(opened(opened(EMPTY, 'hut'), 'ford').held).toEqual([])
    const held = opened(type(opened(EMPTY, 'hut'), 'typed'), 'ford')
    expect(withDraft(held, 'hut', (draft) => saved(draft, 'typed', 'v2')).held).toEqual([])
    expect(withDraft(held, 'hut', (draft) => saved(draft, 'typ', 'v2')).held).toHaveLength(1)
  })

  test('holds a conflict, which is not written, until it is opened and settled', () => {
    const typed = type(opened(EMPTY, 'hut'), TEXT.replace('20', '25'))
    const theirs = onDisk('hut', TEXT.replace('20', '30'), 'v2')
    const both = withDraft(typed, 'hut', (draft) => changedOnDisk(draft, theirs))
    const away = opened(both, 'ford')
    expect(toWrite(away)).toEqual([])
    const back = arrived(opening(away, 'hut'), 'hut', theirs)
    expect(textOn(back)).toContain('25 µA')
    expect(back.desk).toMatchObject({ draft: { conflict: theirs } })
  })

  test('holds a draft whose file is gone; only such a one can be let go', () => {
    const gone = withDraft(opened(EMPTY, 'hut'), 'hut', (draft) => changedOnDisk(draft, null))
    const away = opened(gone, 'ford')
    expect(away.held).toHaveLength(1)
    expect(letGo(away, 'hut').held).toEqual([])
    const typed = opened(type(opened(EMPTY, 'hut'), 'typed'), 'ford')
    expect(letGo(typed, 'hut').held).toHaveLength(1)
  })

  test('brings back what was held where the server does not answer, and says why of what was not', () => {
    const away = arrived(opening(type(opened(EMPTY, 'hut'), 'typed'), 'ford'), 'ford', NO_ANSWER)
    expect(away.desk).toEqual({ is: 'refused', file: 'ford', ...NO_ANSWER })
    expect(textOn(arrived(opening(away, 'hut'), 'hut', NO_ANSWER))).toBe('typed')
  })

  test('an answer that comes late changes nothing', () => {
    const now = opened(EMPTY, 'ford')
    expect(arrived(now, 'hut', NO_ANSWER)).toBe(now)
    expect(arrived(now, 'hut', onDisk('hut'))).toBe(now)
  })
})

test('whatever is typed, saved and left in any order, the last text of each file is on the disk or in the page', () => {
  const file = fc.constantFrom('a', 'b', 'c')
  const step = fc.oneof(
    fc.record({ does: fc.constant('open' as const), file, answers: fc.boolean() }),
    fc.record({ does: fc.constant('type' as const), text: fc.stringMatching(/^[a-z]{1,3}$/) }),
    fc.record({ does: fc.constant('save' as const), file }),
  )
  fc.assert(
    fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
      const disk = new Map(['a', 'b', 'c'].map((each) => [each, onDisk(each)]))
      const wanted = new Map([...disk].map(([each, { text }]) => [each, text]))
      let all = EMPTY
      let versions = 1
      for (const each of steps) {
        const { desk } = all
        if (each.does === 'open') {
          if (desk.is === 'open' && desk.draft.file === each.file) continue
          all = arrived(
            opening(all, each.file),
            each.file,
            each.answers ? (disk.get(each.file) ?? NO_ANSWER) : NO_ANSWER,
          )
        } else if (each.does === 'type') {
          all = type(all, each.text)
          if (desk.is === 'open') wanted.set(desk.draft.file, each.text)
        } else {
          const draft: Draft | undefined = toWrite(all).find((one) => one.file === each.file)
          if (draft === undefined) continue
          const version = `v${++versions}`
          disk.set(each.file, onDisk(each.file, draft.text, version))
          all = withDraft(all, each.file, (now) => saved(now, draft.text, version))
        }
      }
      for (const [name, text] of wanted) {
        const kept = allOf(all).find((draft) => draft.file === name)
        expect((kept ?? disk.get(name))?.text).toBe(text)
      }
    }),
  )
})
