import { z } from 'zod'
import { askedMatch, matchAsked } from './asked-match.ts'
import type { WorkOf } from './work.ts'

export const check: WorkOf<'check'> = {
  asked: z.strictObject({
    work: z.literal('check'),
    ...askedMatch,
    slack: z.number().min(0).max(10),
    cadence: z.boolean(),
  }),
  run: async (asked, doing) => {
    const [{ checkReport }, { doubtLines }, { Refusal }, { checkToTerminal }, { checkToJunit }, { PLAIN }] =
      await Promise.all([
        import('../../workbench/check.ts'),
        import('../../workbench/matched-recording.ts'),
        import('../../workbench/refusal.ts'),
        import('../../report/check-report.ts'),
        import('../../report/junit.ts'),
        import('../../report/terminal.ts'),
      ])
    const { slack, cadence } = asked
    return matchAsked(asked, doing, (matched, open) => {
      const doubts = matched.match.doubts.filter(({ kind }) => kind === 'ambiguous')
      if (doubts.length > 0)
        throw new Refusal(
          [
            'It is not clear which state is which step:',
            ...doubtLines(doubts, matched),
            'Say which, and check again.',
          ].join('\n'),
        )
      const report = checkReport(asked.outpost.file, open.design.outpost, matched, { slack, cadence })
      return { report, text: checkToTerminal(report, false, PLAIN), junit: checkToJunit(report, false) }
    })
  },
}
