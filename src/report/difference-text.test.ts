/** Against `patch` (POSIX): what it makes of the difference is the edited text. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { stream } from '../numeric/random.ts'
import type { Splice } from '../outpost/file/edit.ts'
import { unifiedDifference } from './difference-text.ts'

const folder = mkdtempSync(join(tmpdir(), 'overwinter-difference-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const PATCH = 'patch'
const hasPatch = spawnSync(PATCH, ['--version']).status === 0
if (!hasPatch) console.warn('skipped: there is no patch program here to apply differences with')

function applied(before: string, splices: readonly Splice[]): string {
  return splices.reduceRight(
    (text, { start, end, text: put }) => text.slice(0, start) + put + text.slice(end),
    before,
  )
}

function patched(before: string, splices: readonly Splice[]): string {
  const file = join(folder, 'text')
  writeFileSync(file, before)
  const { status, stdout, stderr } = spawnSync(PATCH, ['--binary', file], {
    input: unifiedDifference('text', before, splices),
    encoding: 'utf8',
  })
  if (status !== 0) throw new Error(`${stdout}${stderr}`)
  return readFileSync(file, 'utf8')
}

describe('unifiedDifference', () => {
  const numbered = Array.from({ length: 40 }, (_, k) => `line ${k + 1}: 1234\n`).join('')
  const at = (line: number) => numbered.indexOf(`line ${line}:`)

  it('is empty where nothing changes', () => {
    expect(unifiedDifference('a', numbered, [])).toBe('')
  })

  it('shows three lines around a change, and a new line as new alone', () => {
    const added = unifiedDifference('a', numbered, [{ start: at(11), end: at(11), text: 'new\n' }])
    expect(added.split('\n').slice(0, 7)).toEqual([
      '--- a',
      '+++ a',
      '@@ -8,6 +8,7 @@',
      ' line 8: 1234',
      ' line 9: 1234',
      ' line 10: 1234',
      '+new',
    ])
    expect(added).not.toContain('-line')
  })

  it.skipIf(!hasPatch)('is what patch makes the edited text of, in 60 drawn edits', () => {
    const draws = stream(1, 0, 0)
    const whole = (most: number) => Math.floor(draws.uniform() * (most + 1))
    for (let round = 0; round < 60; round++) {
      const text =
        round % 3 === 0
          ? numbered.slice(0, -1)
          : round % 3 === 1
            ? numbered.replaceAll('\n', '\r\n')
            : numbered
      const splices: Splice[] = []
      for (let start = whole(60); start < text.length - 12; start += whole(200) + 12) {
        const lineStart = text.indexOf('\n', start) + 1
        const isNew = whole(3) === 0 && lineStart > 0
        const end = isNew ? lineStart : start + whole(4)
        splices.push({ start: isNew ? lineStart : start, end, text: isNew ? 'one more\n' : `<${round}>` })
        start = end
      }
      const inside = splices.filter(({ start, end }) => !text.slice(start, end).includes('\n'))
      expect(patched(text, inside)).toBe(applied(text, inside))
    }
  })
})
