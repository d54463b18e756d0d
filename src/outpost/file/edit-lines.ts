/** Lines of a text by the offsets in them. They end in \n, with \r before it or not; a byte order mark is part of none. */

export function lineStart(source: string, at: number): number {
  const start = at === 0 ? 0 : source.lastIndexOf('\n', at - 1) + 1
  return start === 0 && source[0] === '\uFEFF' ? 1 : start
}

/** Where the next line begins, or the text ends. */
export function nextLine(source: string, at: number): number {
  const end = source.indexOf('\n', at)
  return end < 0 ? source.length : end + 1
}

/** Just behind the last character of the line, ahead of its break. */
export const lineEnd = (source: string, at: number): number => breakBefore(source, nextLine(source, at), at)

/** Ahead of the line break that ends at `end`, where one does and it lies at `floor` or behind. */
export function breakBefore(source: string, end: number, floor = 0): number {
  if (end <= floor || source[end - 1] !== '\n') return end
  return end - 2 >= floor && source[end - 2] === '\r' ? end - 2 : end - 1
}

export const columnOf = (source: string, at: number): number => at - lineStart(source, at)

export const isBlank = (text: string): boolean => /^[ \t\r\n]*$/.test(text)

/** How far a line that holds a comment and nothing else is indented; null for any other line. */
export const commentIndent = (line: string): number | null => /^([ \t]*)#/.exec(line)?.[1].length ?? null

/** The first character that is neither blank nor comment. */
export function skipBlanks(source: string, at: number): number {
  let to = at
  for (;;) {
    while (to < source.length && /[ \t\r\n]/.test(source[to])) to++
    if (source[to] !== '#') return to
    to = nextLine(source, to)
  }
}

export const newlineOf = (source: string): string => (source.includes('\r\n') ? '\r\n' : '\n')

/** Lines put ahead of offset `at`, where a line begins or the text ends. */
export function insertedLines(source: string, at: number, lines: readonly string[]): string {
  const newline = newlineOf(source)
  const text = lines.join(newline)
  const isOpenEnd = at === source.length && at > lineStart(source, at)
  return isOpenEnd ? newline + text : text + newline
}
