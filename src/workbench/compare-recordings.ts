/** The use case behind `compare A B`: what changed between two recordings, and what that does to an outpost's life. */
import { basename } from 'node:path'
import { isRechargeable } from '../decisions/common-runs.ts'
import { differencesOf } from '../decisions/compare-variants.ts'
import { summarise } from '../outlook/summary.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { differenceOf } from '../recording/difference.ts'
import type { OutlookBrief, OutlookPair, RecordingComparison } from '../report/recording-comparison.ts'
import { comparisonVerdict } from '../report/recording-comparison-words.ts'
import { type CompareChoices, ensembleFor, playAll, usualYears } from './compare-variants.ts'
import { measuredOutpost } from './measured-outpost.ts'
import type { OpenDesign } from './open-design.ts'
import type { Playing } from './playing.ts'
import type { ReadRecording } from './read-recording.ts'

/** What to play, and how; null where only the recordings are compared. */
export interface OutlookWanted {
  readonly path: string
  readonly open: OpenDesign
  readonly choices: CompareChoices
  readonly playing: Playing
}

export async function compareRecordings(
  before: ReadRecording,
  after: ReadRecording,
  wanted: OutlookWanted | null,
): Promise<RecordingComparison> {
  const told = {
    before: before.reading,
    after: after.reading,
    difference: differenceOf(before.analysis, after.analysis),
    outlook: wanted === null ? null : await outlookPair(before, after, wanted),
  }
  return { ...told, verdict: comparisonVerdict(told) }
}

/** Both designs meet the same draws and the same weather in run k, so that they differ by what was measured alone. */
async function outlookPair(
  before: ReadRecording,
  after: ReadRecording,
  { path, open, choices, playing }: OutlookWanted,
): Promise<OutlookPair> {
  const { outpost } = open.design
  const years = choices.years ?? usualYears(outpost)
  const ensembles = [before, after].map((read) => ensembleFor(measuredBy(outpost, read), years, choices))
  const played = await playAll(ensembles, playing)
  const rechargeable = isRechargeable(outpost)
  const [was, is] = ensembles.map((ensemble, k): OutlookBrief => {
    const { verdict, winters, life, reportsPerDay } = summarise(played[k].tally, {
      title: outpost.title,
      seed: choices.seed,
      aims: outpost.aims,
      rechargeable,
      cutDay: ensemble.cutDay,
      scheduledReportsPerDay: ensemble.scheduledReportsPerDay,
      budgetParts: ensemble.budgetParts,
    })
    return { verdict, winters, life, reportsPerDay }
  })
  return {
    file: basename(path),
    title: outpost.title,
    rechargeable,
    runs: choices.runs,
    years,
    seed: choices.seed,
    before: was,
    after: is,
    differences: differencesOf(played[0].outcomes, played[1].outcomes),
  }
}

const measuredBy = (outpost: Outpost, { analysis, reading }: ReadRecording): Outpost =>
  measuredOutpost(outpost, { analysis, file: reading.file, states: reading.states })
