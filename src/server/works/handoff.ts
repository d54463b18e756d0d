import { z } from 'zod'
import { askedOutpost, outpostOf } from './asked-outpost.ts'
import type { WorkOf } from './work.ts'

export const handoff: WorkOf<'handoff'> = {
  asked: z.strictObject({
    work: z.literal('handoff'),
    ...askedOutpost,
    prefix: z.string().max(64),
    bcd: z.boolean(),
    clock: z.enum(['local', 'utc']),
  }),
  run: async (asked, doing) => {
    const { handoffFile } = await import('../../workbench/handoff.ts')
    const { prefix, bcd, seed, variant } = asked
    const clock = asked.clock === 'utc' ? 'UTC' : 'local time'
    const choices = {
      prefix,
      bcd,
      clock,
      seed,
      variant,
      calendarYear: doing.calendarYear,
      colour: false,
    } as const
    const { files } = await handoffFile(outpostOf(asked, doing), choices)
    return { files }
  },
}
