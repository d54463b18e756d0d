/** The blanks of the first page's sentence, kept in the address so that a link shows others the same. */
import type { Answers } from '../../outpost/file/new.ts'
import { go, type Route } from '../route.ts'

export type Blank = keyof Answers

/** What the sentence says before anyone has typed. */
export const USUAL: Readonly<Record<Blank, string>> = {
  cell: 'LR6',
  interval: '10 min',
  awakeFor: '4 s',
  awakeCurrent: '25 mA',
  restCurrent: '20 µA',
  place: 'London',
  panel: '',
  title: '',
}

/** Names in the address. */
const KEYS: Readonly<Record<Blank, string>> = {
  cell: 'cell',
  interval: 'every',
  awakeFor: 'for',
  awakeCurrent: 'draws',
  restCurrent: 'rests',
  place: 'place',
  panel: 'panel',
  title: 'title',
}

export const blanksOf = ({ more }: Route): Record<Blank, string> =>
  Object.fromEntries(
    Object.entries(USUAL).map(([blank, usual]) => [blank, more[KEYS[blank as Blank]] ?? usual]),
  ) as Record<Blank, string>

export function setBlank(route: Route, blank: Blank, text: string): void {
  const { [KEYS[blank]]: _, ...others } = route.more
  go({ more: text === USUAL[blank] ? others : { ...others, [KEYS[blank]]: text } }, { quietly: true })
}

/** As the file's writer takes them: what is optional and empty is left out. */
export function answersOf(blanks: Record<Blank, string>): Answers {
  const { title, place, panel, ...needed } = blanks
  const given = (key: 'title' | 'place' | 'panel', text: string) =>
    text.trim() === '' ? {} : { [key]: text.trim() }
  return { ...needed, ...given('title', title), ...given('place', place), ...given('panel', panel) }
}

/** A file name for a title: `gauge-by-the-ford.outpost.yaml`. */
export function fileNameFor(title: string, taken: readonly string[]): string {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
  const stem = plain === '' ? 'new' : plain
  for (let n = 1; ; n++) {
    const name = `${stem}${n === 1 ? '' : `-${n}`}.outpost.yaml`
    if (!taken.includes(name)) return name
  }
}
