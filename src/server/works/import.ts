import { z } from 'zod'
import { importedOf } from '../imported.ts'
import { askedSource, openAsked } from './asked-recording.ts'
import type { WorkOf } from './work.ts'

export const importing: WorkOf<'import'> = {
  asked: z.strictObject({ work: z.literal('import'), ...askedSource }),
  run: async (asked, doing) => {
    const recording = await openAsked(asked, doing)
    try {
      return importedOf(asked.file, recording)
    } finally {
      recording.close()
    }
  },
}
