/** Every YAML block of the documentation goes through the reader; so does the message that it shows. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { isMap, parseDocument } from 'yaml'
import { formatDiagnostic } from './format-diagnostic.ts'
import { readOutpost } from './read.ts'

const page = readFileSync(new URL('../../../docs/outpost-file.md', import.meta.url), 'utf8')
const blocks = (language: string) =>
  [...page.matchAll(new RegExp(`^\`\`\`${language}\n(.*?)^\`\`\``, 'gms'))].map((match) => match[1])

const [whole, ...parts] = blocks('yaml')

/** The first block with the sections of another one in place of its own. */
function withSections(block: string): string {
  const base = parseDocument(whole)
  const sections = parseDocument(block).contents
  if (!isMap(sections)) throw new Error('a block of the documentation has no sections')
  for (const { key, value } of sections.items) base.set(key, value)
  return String(base)
}

test('the first block is a whole outpost', () => {
  expect(readOutpost(whole)).toMatchObject({ ok: true, warnings: [] })
})

test.each(parts.map((block) => ({ block })))('block reads without an error: $block', ({ block }) => {
  const result = readOutpost(withSections(block))
  expect(result.ok ? [] : result.diagnostics).toEqual([])
})

test('the message shown is the one that is printed', () => {
  const source = whole.replace('38 mA ± 10 %', '38 mAh')
  const result = readOutpost(source)
  const shown = result.ok
    ? []
    : result.diagnostics.map((each) => formatDiagnostic(each, source, { fileName: 'gauge.outpost.yaml' }))
  expect(`${shown.join('\n')}\n`).toBe(blocks('text')[0])
})
