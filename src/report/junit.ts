/**
 * The answer of the gate as JUnit XML, as readers of continuous integration take it: `testsuites`, `testsuite` with its
 * counts, a `testcase` for each point with `failure` or `skipped` inside. No standard body keeps this format; elements and
 * attributes are those that its usual readers agree on (common practice, from memory).
 */
import { type CheckReport, itemInWords, itemName } from './check-report.ts'
import { flawSentences } from './recording-words.ts'

/** With `strict` a point that cannot be told is a failure, otherwise it is skipped. */
export function checkToJunit(report: CheckReport, strict: boolean): string {
  const { items, title, recording, file, flaws } = report
  const failing = (verdict: string) => verdict === 'fail' || (strict && verdict === 'cannot tell')
  const failures = items.filter(({ verdict }) => failing(verdict)).length
  const skipped = strict ? 0 : items.filter(({ verdict }) => verdict === 'cannot tell').length
  const counts = `tests="${items.length}" failures="${failures}" errors="0" skipped="${skipped}" time="0"`
  const cases = items.map((item) => {
    const words = itemInWords(item)
    const open = `    <testcase classname="${escaped(title)}" name="${escaped(itemName(item, report))}" time="0">`
    const told = item.verdict === 'cannot tell' ? `cannot tell: ${words}` : words
    const message = `message="${escaped(told)}"`
    const outcome = failing(item.verdict)
      ? [`      <failure ${message} type="budget"/>`]
      : item.verdict === 'cannot tell'
        ? [`      <skipped ${message}/>`]
        : []
    return [open, ...outcome, `      <system-out>${escaped(words)}</system-out>`, '    </testcase>'].join(
      '\n',
    )
  })
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="current budget" ${counts}>`,
    `  <testsuite name="${escaped(`${recording} against ${file}`)}" ${counts}>`,
    ...cases,
    ...(flaws.length === 0
      ? []
      : [`    <system-out>${escaped(flawSentences(recording, flaws).join('\n'))}</system-out>`]),
    '  </testsuite>',
    '</testsuites>',
    '',
  ].join('\n')
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }

/** Characters that XML 1.0 does not allow are left out (its production 2). */
const escaped = (text: string): string =>
  text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/[&<>"]/g, (c) => ENTITIES[c])
