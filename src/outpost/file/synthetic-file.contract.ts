/**
 * YAML files of any shape and layout for the tests of edits. Each comment says what it is about: the path of its entry,
 * or that of the file for those at the top and for those that stand alone.
 */
import fc from 'fast-check'
import type { Path } from './diagnostic.ts'

interface Comments {
  readonly above: number
  readonly behind: boolean
  readonly below: boolean
  readonly gap: boolean
}

type Shape =
  | { readonly kind: 'text'; readonly form: number; readonly id: number }
  | { readonly kind: 'map' | 'list'; readonly flow: FlowForm; readonly entries: readonly Entry[] }

interface Entry {
  readonly key: string
  readonly value: Shape
  readonly comments: Comments
  /** An item begins on the line of its dash. */
  readonly compact: boolean
}

type FlowForm = 'none' | 'line' | 'lines' | 'lines with last comma'

interface Layout {
  readonly step: number
  readonly listStep: number
  readonly newline: string
  readonly mark: string
  readonly header: number
  readonly isOpenEnd: boolean
}

export interface SyntheticFile {
  readonly text: string
  readonly comments: readonly { readonly text: string; readonly about: Path }[]
}

const KEYS = [
  'rest',
  'supply',
  'name',
  'restart above',
  'for',
  'draws',
  '"quoted: key"',
  "'it''s'",
  '90',
  'title',
  'x',
]

const comments = fc.record({
  above: fc.constantFrom(0, 0, 0, 1, 2),
  behind: fc.boolean(),
  below: fc.constantFrom(false, false, true),
  gap: fc.constantFrom(false, false, true),
})

const { shape } = fc.letrec<{ shape: Shape; text: Shape; collection: Shape }>((tie) => ({
  shape: fc.oneof({ maxDepth: 4, depthSize: 'small' }, tie('text'), tie('collection')),
  text: fc.record({ kind: fc.constant('text' as const), form: fc.nat(9), id: fc.nat(999) }),
  collection: fc.record({
    kind: fc.constantFrom('map' as const, 'list' as const),
    flow: fc.constantFrom<FlowForm>('none', 'none', 'none', 'line', 'lines', 'lines with last comma'),
    entries: fc.uniqueArray(
      fc.record({ key: fc.constantFrom(...KEYS), value: tie('shape'), comments, compact: fc.boolean() }),
      { minLength: 1, maxLength: 4, selector: ({ key }) => key },
    ),
  }),
}))

const layout = fc.record({
  step: fc.constantFrom(2, 2, 4, 1),
  listStep: fc.constantFrom(2, 2, 0, 4),
  newline: fc.constantFrom('\n', '\n', '\r\n'),
  mark: fc.constantFrom('', '', '\uFEFF'),
  header: fc.nat(2),
  isOpenEnd: fc.boolean(),
})

export const syntheticFile: fc.Arbitrary<SyntheticFile> = fc
  .tuple(
    fc.array(fc.record({ key: fc.constantFrom(...KEYS), value: shape, comments, compact: fc.boolean() }), {
      minLength: 1,
      maxLength: 5,
    }),
    layout,
  )
  .map(([entries, form]) => {
    const known = new Set<string>()
    const own = entries.filter(({ key }) => !known.has(key) && known.add(key))
    return written({ kind: 'map', flow: 'none', entries: own }, form)
  })

function written(top: Shape & { kind: 'map' | 'list' }, layout: Layout): SyntheticFile {
  const found: { text: string; about: Path }[] = []
  const lines: string[] = []
  for (let i = 0; i < layout.header; i++) lines.push(comment([], 'head'))
  if (layout.header > 0) lines.push('')
  block(top, 0, [], layout.header === 0)
  // A text that keeps its last line breaks (+) cannot be moved to an open end: that is refused.
  const isOpenEnd = layout.isOpenEnd && !lines.some((line) => line.includes('|+'))
  const text = layout.mark + lines.join(layout.newline) + (isOpenEnd ? '' : layout.newline)
  return { text, comments: found }

  function comment(about: Path, where: string): string {
    const text = `# ${found.length} ${where} ${about.join('/')}`
    found.push({ text, about })
    return text
  }

  /** Whether a text that runs to the next line with less indent ends it, so that no comment can stand below. */
  function block(
    { kind, entries }: Shape & { kind: 'map' | 'list' },
    column: number,
    path: Path,
    isTop: boolean,
  ): boolean {
    let isOpen = false
    for (const [i, { key, value, comments, compact }] of entries.entries()) {
      const at = [...path, kind === 'list' ? i : keyOf(key)]
      const pad = ' '.repeat(column)
      if (comments.gap && i > 0) lines.push('')
      if (!(isTop && i === 0)) for (let k = 0; k < comments.above; k++) lines.push(pad + comment(at, 'above'))
      const line = lines.length
      lines.push(`${pad}${kind === 'list' ? '-' : `${key}:`}`)
      const behind = () => (comments.behind ? `  ${comment(at, 'behind')}` : '')
      isOpen = entry(value, kind, column, at, behind, compact, line)
      const isFlush = value.kind === 'list' && value.flow === 'none' && listColumn(kind, column) <= column
      if (comments.below && !isOpen && !isFlush) lines.push(`${pad} ${comment(at, 'below')}`)
    }
    return isOpen
  }

  function listColumn(kind: 'map' | 'list', column: number): number {
    return kind === 'list' ? column + 2 : column + layout.listStep
  }

  function entry(
    value: Shape,
    kind: 'map' | 'list',
    column: number,
    at: Path,
    behind: () => string,
    compact: boolean,
    line: number,
  ): boolean {
    const inside = column + (kind === 'list' ? 2 : layout.step)
    if (value.kind === 'text') return single(value, inside, behind, line)
    if (value.flow === 'line') {
      lines[line] += ` ${flow(value)}${behind()}`
      return false
    }
    if (value.flow !== 'none') {
      flowLines(value, inside, at, line)
      lines[lines.length - 1] += behind()
      return false
    }
    const below = value.kind === 'list' ? listColumn(kind, column) : inside
    if (kind === 'map' || !compact) {
      lines[line] += behind()
      return block(value, below, at, false)
    }
    const from = lines.length
    const isOpen = block(value, below, at, true)
    lines[line] += ` ${lines[from].trimStart()}`
    lines.splice(from, 1)
    return isOpen
  }

  function single(
    { form, id }: Shape & { kind: 'text' },
    inside: number,
    behind: () => string,
    line: number,
  ): boolean {
    const pad = ' '.repeat(inside)
    if (form === 0) {
      lines[line] += ` ${['|', '|-', '>-', '|+'][id % 4]}${behind()}`
      lines.push(`${pad}t${id}`, `${pad}# no comment`, ...(id % 3 === 0 ? ['', ''] : []))
      return true
    }
    if (form === 1) {
      lines[line] += ` t${id}`
      lines.push(`${pad}and more${behind()}`)
    } else if (form === 2) lines[line] += behind()
    else lines[line] += ` ${inline(form, id)}${behind()}`
    return false
  }

  function flow(value: Shape): string {
    if (value.kind === 'text') return inline(value.form, value.id)
    const entries = value.entries.map(
      (each) => `${value.kind === 'map' ? `${each.key}: ` : ''}${flow(each.value)}`,
    )
    return value.kind === 'map' ? `{ ${entries.join(', ')} }` : `[${entries.join(', ')}]`
  }

  function flowLines(value: Shape & { kind: 'map' | 'list' }, inside: number, at: Path, line: number): void {
    lines[line] += value.kind === 'map' ? ' {' : ' ['
    const pad = ' '.repeat(inside)
    for (const [i, each] of value.entries.entries()) {
      const path = [...at, value.kind === 'map' ? keyOf(each.key) : i]
      for (let k = 0; k < each.comments.above; k++) lines.push(pad + comment(path, 'above'))
      const comma = i < value.entries.length - 1 || value.flow === 'lines with last comma' ? ',' : ''
      const head = value.kind === 'map' ? `${each.key}: ` : ''
      lines.push(
        `${pad}${head}${flow(each.value)}${comma}${each.comments.behind ? `  ${comment(path, 'behind')}` : ''}`,
      )
    }
    lines.push(`${pad}${value.kind === 'map' ? '}' : ']'}`)
  }
}

const inline = (form: number, id: number): string =>
  [`t${id}`, `"t${id}, [x]"`, `'t${id}: it''s # so'`, `${id}`, `${id} µA ± 10 %`][form % 5]

const keyOf = (key: string): string =>
  key.startsWith('"') ? key.slice(1, -1) : key.startsWith("'") ? "it's" : key
