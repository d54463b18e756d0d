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
