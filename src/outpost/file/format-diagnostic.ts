/** A diagnostic as text for people: place, what is wrong, the line with a caret, what was expected, and the cure. */
import type { Diagnostic } from './diagnostic.ts'

export interface FormatOptions {
  readonly fileName: string
  /** Escape sequences for a terminal; off unless asked for. */
  readonly colour?: boolean
}

const STYLES = { bold: 1, red: 31, yellow: 33, dim: 2 } as const
/** Longer lines are cut around the caret. */
const WIDEST = 96

/** Several lines without a line end behind the last. `source` is the text of the whole file. */
export function formatDiagnostic(
  diagnostic: Diagnostic,
  source: string,
  { fileName, colour = false }: FormatOptions,
): string {
  const style = (name: keyof typeof STYLES, text: string) =>
    colour ? `\x1b[${STYLES[name]}m${text}\x1b[0m` : text
  const { severity, code, message, range, expected, cure, variant } = diagnostic
  const { line, column } = range.start
  const inVariant = variant === null ? '' : ` (in variant "${variant}")`
  const mark = severity === 'error' ? 'red' : 'yellow'
  const number = String(line)
  const gutter = ' '.repeat(number.length)
  const { shown, caret } = pointAt(source.split(/\r\n|\n|\r/)[line - 1] ?? '', column, widthOf(diagnostic))
  return [
    `${style('bold', `${fileName}:${line}:${column}:`)} ${style(mark, severity)} ${message}${inVariant} ${style('dim', `[${code}]`)}`,
    `  ${style('dim', `${number} |`)} ${shown}`,
    `  ${style('dim', `${gutter} |`)} ${style(mark, caret)}`,
    `  ${gutter} expected: ${expected}`,
    `  ${gutter} cure: ${cure}`,
  ].join('\n')
}

function widthOf({ range, text }: Diagnostic): number {
  return range.end.line === range.start.line ? range.end.column - range.start.column : text.length
}

function pointAt(text: string, column: number, width: number): { shown: string; caret: string } {
  const from = text.length > WIDEST ? Math.max(0, column - 1 - WIDEST / 2) : 0
  const to = from + WIDEST
  const shown = (from > 0 ? '…' : '') + text.slice(from, to) + (to < text.length ? '…' : '')
  const before = column - 1 - from + (from > 0 ? 1 : 0)
  // Tabs are kept so that the caret stands under its character whatever their width.
  const indent = shown.slice(0, before).replace(/[^\t]/g, ' ').padEnd(before)
  return { shown, caret: indent + '^'.repeat(Math.max(1, Math.min(width, shown.length - before))) }
}
