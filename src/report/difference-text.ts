/** What an edit changes, as a unified difference (the format of `diff -u`, POSIX.1-2008, with its three lines around). */
import type { Splice } from '../outpost/file/edit.ts'

const AROUND = 3

interface Hunk {
  /** Lines from … to − 1 of the text before give way to `lines`. */
  readonly from: number
  readonly to: number
  readonly lines: readonly string[]
}

/** Empty where nothing changes. `splices` are in order and do not overlap; lines end in \n, with \r before it or not. */
export function unifiedDifference(file: string, before: string, splices: readonly Splice[]): string {
  const hunks = changedLines(before, splices)
  if (hunks.length === 0) return ''
  const old = linesOf(before)
  let shift = 0
  const blocks = gathered(hunks).map((group) => {
    const first = Math.max(group[0].from - AROUND, 0)
    const end = Math.min(group[group.length - 1].to + AROUND, old.length)
    const rows: string[] = []
    let done = first
    for (const { from, to, lines } of group) {
      rows.push(...old.slice(done, from).map((line) => ` ${line}`))
      rows.push(...old.slice(from, to).map((line) => `-${line}`), ...lines.map((line) => `+${line}`))
      done = to
    }
    rows.push(...old.slice(done, end).map((line) => ` ${line}`))
    const grown = group.reduce((sum, { from, to, lines }) => sum + lines.length - (to - from), 0)
    const head = `@@ -${first + 1},${end - first} +${first + 1 + shift},${end - first + grown} @@\n`
    shift += grown
    return head + rows.map(whole).join('')
  })
  return `--- ${file}\n+++ ${file}\n${blocks.join('')}`
}

/** Splices that touch the same lines make one change. */
function changedLines(before: string, splices: readonly Splice[]): Hunk[] {
  const groups: { start: number; end: number; splices: Splice[] }[] = []
  for (const splice of splices) {
    const start = before.lastIndexOf('\n', splice.start - 1) + 1
    const newline = before.indexOf('\n', splice.end)
    const isNewLine = start === splice.end && splice.text.endsWith('\n')
    const end = isNewLine ? start : newline < 0 ? before.length : newline + 1
    const last = groups.at(-1)
    if (last !== undefined && start < last.end) {
      last.end = Math.max(last.end, end)
      last.splices.push(splice)
    } else groups.push({ start, end, splices: [splice] })
  }
  return groups.map(({ start, end, splices: own }) => {
    let text = ''
    let done = start
    for (const splice of own) {
      text += before.slice(done, splice.start) + splice.text
      done = splice.end
    }
    text += before.slice(done, end)
    const from = linesOf(before.slice(0, start)).length
    return { from, to: from + linesOf(before.slice(start, end)).length, lines: linesOf(text) }
  })
}

/** Changes whose surroundings touch are shown together. */
function gathered(hunks: readonly Hunk[]): Hunk[][] {
  const groups: Hunk[][] = []
  for (const hunk of hunks) {
    const group = groups.at(-1)
    if (group !== undefined && hunk.from - group[group.length - 1].to <= 2 * AROUND) group.push(hunk)
    else groups.push([hunk])
  }
  return groups
}

/** With their ends. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? []

const whole = (line: string): string =>
  line.endsWith('\n') ? line : `${line}\n\\ No newline at end of file\n`
