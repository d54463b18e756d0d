/** The text of an outpost file as a YAML document with positions, and what is wrong with it as YAML. */
import {
  type Alias,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  visit,
} from 'yaml'
import type { Diagnostic, Finding, Path, Range } from './diagnostic.ts'

export interface OutpostDocument {
  readonly source: string
  /** Comments, order and layout included: edits made here keep them. */
  readonly yaml: Document
  readonly lines: LineCounter
}

/** Offsets into the source, the end just behind the last character. */
type Span = readonly [start: number, end: number]

interface Place {
  /** The key, where the last part of the path is one. */
  readonly key: Span | null
  readonly value: Span | null
  readonly node: Node | null
}

export function parseOutpostDocument(source: string): OutpostDocument {
  const lines = new LineCounter()
  const yaml = parseDocument(source, { lineCounter: lines, prettyErrors: false, version: '1.2' })
  return { source, yaml, lines }
}

/** What goes wrong most, in words and with a cure of our own; other errors of YAML carry general ones. */
const WORDS: Readonly<Record<string, { readonly message?: string; readonly cure: string }>> = {
  DUPLICATE_KEY: {
    message: 'this key stands here for the second time',
    cure: 'remove one of the two, or put a list under one key',
  },
  TAB_AS_INDENT: { message: 'a tab indents this line', cure: 'indent with spaces' },
  MULTIPLE_DOCS: {
    message: 'a second document begins here',
    cure: 'keep one outpost in a file: remove the line of three dashes',
  },
  BAD_INDENT: { cure: 'line the key up with the others of its section' },
  UNEXPECTED_TOKEN: { cure: 'inside { } a text with [ or , in it needs quotes: "5 s [3 s, 9 s]"' },
  MISSING_CHAR: { cure: 'close the quote or bracket, or put a space after the colon' },
  BLOCK_AS_IMPLICIT_KEY: {
    cure: 'put the nested keys on lines of their own, or quote a text that holds ": "',
  },
}

/** What bytes turn into that are not UTF-8, and the zeros between the letters of UTF-16. */
const NO_UTF_8 = /[\uFFFD\0]/

/**
 * Every key that stands twice, and the first of the other errors: those that follow are mostly its echo.
 */
export function syntaxProblems(document: OutpostDocument): Diagnostic[] {
  const garbled = document.source.search(NO_UTF_8)
  if (garbled >= 0)
    return [
      diagnosticAt(document, [], [garbled, garbled + 1], {
        code: 'not-utf-8',
        severity: 'error',
        message: 'the file is not saved as UTF-8: letters as µ, Ω or ° in it cannot be read',
        expected: 'text in UTF-8',
        cure: 'save it anew from the editor, with the encoding UTF-8; then look at the places of those letters',
      }),
    ]
  const { errors, warnings } = document.yaml
  const broken = errors.find((error) => !isHarmless(error))
  return [...errors.filter(isHarmless), ...(broken ? [broken] : []), ...warnings].map((error) => {
    const [start, end] = error.pos
    return diagnosticAt(document, [], [start, Math.max(end, start + 1)], {
      code: `yaml-${error.code.toLowerCase().replaceAll('_', '-')}`,
      severity: error.name === 'YAMLWarning' ? 'warning' : 'error',
      message: WORDS[error.code]?.message ?? `not YAML as it should be: ${error.message.split('\n')[0]}`,
      expected: 'YAML 1.2: "key: value" lines, indented with spaces, each key once',
      cure: WORDS[error.code]?.cure ?? 'mend the line; a text with : or # in it needs quotes',
    })
  })
}

/** A key that stands twice leaves the tree readable; all other errors make it doubtful. */
const isHarmless = (error: { readonly code: string }): boolean => error.code === 'DUPLICATE_KEY'

export const isReadable = ({ yaml, source }: OutpostDocument): boolean =>
  !NO_UTF_8.test(source) && yaml.errors.every(isHarmless)

/** The file as plain data, or what is wrong with its aliases: unknown, part of themselves, or unfolding without end. */
export function dataOf(
  document: OutpostDocument,
): { readonly data: unknown } | { readonly problem: Diagnostic } {
  const { yaml } = document
  const wrong = (span: Span, message: string) => ({
    problem: diagnosticAt(document, [], span, {
      code: 'yaml-alias',
      severity: 'error',
      message: `not YAML as it should be: ${message}`,
      expected: 'an alias (*name) of something that stands above it (&name)',
      cure: 'write out what the alias stands for; a text that begins with * needs quotes',
    }),
  })
  const endless = endlessAlias(yaml)
  if (endless !== null)
    return wrong(rangeOf(endless) ?? [0, 1], `*${endless.source} stands inside what it is an alias of`)
  try {
    return { data: yaml.toJS() }
  } catch (error) {
    if (!(error instanceof ReferenceError)) throw error
    let span: Span = [0, 1]
    visit(yaml, {
      Alias(_, alias) {
        span = rangeOf(alias) ?? span
        return alias.resolve(yaml) === undefined ? visit.BREAK : undefined
      },
    })
    return wrong(span, error.message)
  }
}

/**
 * An alias within the node that it stands for, null where there is none. There is no longer way round: an alias stands
 * for something that begins above it, which holds it or is already closed.
 */
function endlessAlias(yaml: Document): Alias | null {
  let found: Alias | null = null
  visit(yaml, {
    Alias(_, alias, ancestors) {
      const whole = alias.resolve(yaml)
      if (whole === undefined || !ancestors.includes(whole)) return undefined
      found = alias
      return visit.BREAK
    },
  })
  return found
}

/** Where a finding points: at the value, at the key, or at a part of the value's text. */
export type Aim = 'value' | 'key' | { readonly start: number; readonly end: number }

/** The finding with its place: that of the deepest part of `path` which the file has. */
export function diagnose(document: OutpostDocument, path: Path, aim: Aim, finding: Finding): Diagnostic {
  return diagnosticAt(document, path, spanOf(document, path, aim), finding)
}

function spanOf(document: OutpostDocument, path: Path, aim: Aim): Span {
  const place = placeOf(document.yaml, path)
  if (place === null)
    return path.length === 0 ? [0, 1] : spanOf(document, path.slice(0, -1), aim === 'value' ? 'value' : 'key')
  const whole = (aim === 'key' ? place.key : place.value) ?? place.value ?? place.key ?? ([0, 1] as const)
  if (typeof aim === 'string' || !isScalar(place.node)) return whole
  // Only where the source shows the text as it is read: neither folded over lines nor escaped.
  const quote = place.node.type?.startsWith('QUOTE') ? 1 : 0
  const text = String(place.node.source ?? place.node.value)
  const start = whole[0] + quote
  if (document.source.slice(start, start + text.length) !== text) return whole
  return [start + aim.start, start + Math.max(aim.end, aim.start + 1)]
}

function placeOf(yaml: Document, path: Path): Place | null {
  let place: Place | null = { key: null, value: rangeOf(yaml.contents), node: yaml.contents }
  for (const part of path) {
    const node: Node | null = isAlias(place.node) ? (place.node.resolve(yaml) ?? null) : place.node
    place = null
    if (isMap(node)) {
      const pair: Pair | undefined = node.items.find((item) => keyOf(item) === String(part))
      if (pair)
        place = {
          key: rangeOf(pair.key as Node),
          value: rangeOf(pair.value as Node | null),
          node: pair.value as Node | null,
        }
    } else if (isSeq(node) && typeof part === 'number' && part < node.items.length) {
      const item = node.items[part] as Node
      place = { key: null, value: rangeOf(item), node: item }
    }
    if (place === null) return null
  }
  return place
}

const keyOf = (pair: Pair): string => (isScalar(pair.key) ? String(pair.key.value) : String(pair.key))

/** Null also for a value that is not there at all, as behind `key:` with nothing after it. */
function rangeOf(node: Node | null): Span | null {
  const range = node?.range
  return range && range[1] > range[0] ? [range[0], range[1]] : null
}

function diagnosticAt(document: OutpostDocument, path: Path, span: Span, finding: Finding): Diagnostic {
  const { source, lines } = document
  const range: Range = { start: position(lines, span[0]), end: position(lines, span[1]) }
  const text = source
    .slice(span[0], span[1])
    .split(/[\r\n]/)[0]
    .trimEnd()
  return { ...finding, path, range, text, variant: null }
}

function position(lines: LineCounter, offset: number): Range['start'] {
  const { line, col } = lines.linePos(offset)
  return { line: Math.max(1, line), column: Math.max(1, col) }
}
