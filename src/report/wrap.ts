/** Text broken at spaces into lines of at most `width` characters, later lines indented by `indent`. */
export function wrap(text: string, width: number, indent = ''): string {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const next = line === '' ? word : `${line} ${word}`
    if (next.length > width && line !== '') {
      lines.push(line)
      line = indent + word
    } else line = next
  }
  if (line !== '') lines.push(line)
  return lines.join('\n')
}

/** A name in a column of `column` characters, indented by two, and its text beside it, wrapped within the page. */
export function labelled(name: string, text: string, column: number, width: number): string {
  const indent = ' '.repeat(column + 3)
  const [first, ...rest] = wrap(text, width - indent.length).split('\n')
  return [`  ${name.padEnd(column)} ${first}`, ...rest.map((line) => indent + line)].join('\n')
}
