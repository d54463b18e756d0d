import { z } from 'zod'
import type { Reported } from '../../api/work.ts'
import { readAsked } from './asked-recording.ts'
import { forecast } from './forecast.ts'
import { read } from './read.ts'
import { size } from './size.ts'
import { variants } from './variants.ts'
import type { Doing, WorkOf } from './work.ts'

export const reporting: WorkOf<'report'> = {
  asked: z.strictObject({
    work: z.literal('report'),
    of: z.discriminatedUnion('work', [forecast.asked, variants.asked, size.asked, read.asked]),
  }),
  run: async ({ of }, doing) => ({ html: await htmlOf(of, doing) }),
}

async function htmlOf(of: Reported, doing: Doing): Promise<string> {
  switch (of.work) {
    case 'forecast': {
      const { forecastToHtml } = await import('../../report/html.ts')
      return forecastToHtml(await forecast.run(of, doing))
    }
    case 'variants': {
      const { variantsToHtml } = await import('../../report/variants-html.ts')
      return variantsToHtml(await variants.run(of, doing))
    }
    case 'size': {
      const { sizingToHtml } = await import('../../report/sizing-html.ts')
      return sizingToHtml(await size.run(of, doing))
    }
    case 'read': {
      const { recordingReport } = await import('../../workbench/recording-report.ts')
      return readAsked(of, doing, (found, recording) => recordingReport(recording, found))
    }
  }
}
