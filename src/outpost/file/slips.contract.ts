/** Bad files, one slip each: the code it is known by, and where it points. Prose is left free to improve. */
import { describe, expect, test } from 'vitest'
import type { Severity } from './diagnostic.ts'
import { readOutpost } from './read.ts'

/**
 * `to` replaces `from`. The sign ¦ shows where the diagnostic must point, and is taken out: in `to`, or in a text
 * `pointsAt` that stands elsewhere in the file.
 */
export type Slip = readonly [code: string, from: string, to: string, severity?: Severity, pointsAt?: string]

const MARK = '¦'

function placeOf(text: string): string {
  const before = text.slice(0, text.indexOf(MARK)).split('\n')
  return `${before.length}:${before[before.length - 1].length + 1}`
}

function diagnosticsOf(text: string) {
  const result = readOutpost(text)
  return result.ok ? result.warnings : result.diagnostics
}

/** Checks that `good` reads without a word, and that each slip in it is found where it is. */
export function describeSlips(what: string, good: string, slips: readonly Slip[]): void {
  describe(what, () => {
    test('reads without a word when nothing is wrong', () => {
      expect(diagnosticsOf(good)).toEqual([])
    })

    test.each(
      slips.map(([code, from, to, severity = 'error', pointsAt = '']) => ({
        code,
        from,
        to,
        severity,
        pointsAt,
      })),
    )('$code: $to$pointsAt', ({ code, from, to, severity, pointsAt }) => {
      expect(good).toContain(from)
      const changed = good.replace(from, to)
      const marked = pointsAt === '' ? changed : changed.replace(pointsAt.replace(MARK, ''), pointsAt)
      expect(marked).toContain(MARK)
      const found = diagnosticsOf(marked.replace(MARK, ''))
      const expected = found.find((each) => each.code === code && each.severity === severity)
      expect(expected, `found ${found.map((each) => each.code).join(', ') || 'nothing'}`).toBeDefined()
      expect(`${expected?.range.start.line}:${expected?.range.start.column}`).toBe(placeOf(marked))
      expect(expected?.expected).not.toBe('')
      expect(expected?.cure).not.toBe('')
    })
  })
}
