/** The text of an outpost file as a YAML document with positions, and what is wrong with it as YAML. */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
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

/** Cures for what goes wrong most; other errors of YAML carry a general one. */
const CURES: Readonly<Record<string, string>> = {
  DUPLICATE_KEY: 'remove one of the two, or put a list under one key',
  TAB_AS_INDENT: 'indent with spaces',
  BAD_INDENT: 'line the key up with the others of its section',
  MULTIPLE_DOCS: 'keep one outpost in a file: remove the line of three dashes',
  BAD_ALIAS: 'put the anchor (&name) before the alias (*name)',
  UNEXPECTED_TOKEN: 'inside { } a text with [ or , in it needs quotes: "5 s [3 s, 9 s]"',
  MISSING_CHAR: 'close the quote or bracket, or put a space after the colon',
  BLOCK_AS_IMPLICIT_KEY: 'put the nested keys on lines of their own, or quote a text that holds ": "',
}

/**
 * Every key that stands twice, and the first of the other errors: those that follow are mostly its echo.
 */
export function syntaxProblems(document: OutpostDocument): Diagnostic[] {
  const { errors, warnings } = document.yaml
  const broken = errors.find((error) => !isHarmless(error))
  return [...errors.filter(isHarmless), ...(broken ? [broken] : []), ...warnings].map((error) => {
    const [start, end] = error.pos
    return diagnosticAt(document, [], [start, Math.max(end, start + 1)], {
      code: `yaml-${error.code.toLowerCase().replaceAll('_', '-')}`,
      severity: error.name === 'YAMLWarning' ? 'warning' : 'error',
      message: `not YAML as it should be: ${error.message.split('\n')[0]}`,
      expected: 'YAML 1.2: "key: value" lines, indented with spaces, each key once',
      cure: CURES[error.code] ?? 'mend the line; a text with : or # in it needs quotes',
    })
  })
}

/** A key that stands twice leaves the tree readable; all other errors make it doubtful. */
const isHarmless = (error: { readonly code: string }): boolean => error.code === 'DUPLICATE_KEY'

export const isReadable = ({ yaml }: OutpostDocument): boolean => yaml.errors.every(isHarmless)

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
