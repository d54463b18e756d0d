/** Where the range of an instrument was changed by hand, as a user writes it: `2 min=400 mA`. */
import { parseQuantity } from '../quantity/parse-quantity.ts'
import { sampleAtTime } from '../recording/access.ts'
import type { Instrument, RangeMark } from '../recording/instrument.ts'
import type { Recording } from '../recording/recording.ts'
import { Refusal } from './refusal.ts'

export function rangeMarks(
  texts: readonly string[],
  instrument: Instrument | null,
  recording: Recording,
): RangeMark[] {
  if (texts.length > 0 && instrument === null)
    throw new Refusal(
      'A range set by hand is one of an instrument: say too what it was measured with, by an instrument file.',
    )
  return texts
    .map((text) => markOf(text, instrument?.ranges.map(({ name }) => name) ?? [], recording))
    .sort((a, b) => a.sample - b.sample)
}

function markOf(text: string, names: readonly string[], recording: Recording): RangeMark {
  const [, time = '', name = ''] = /^\s*([^=]*?)\s*=\s*(.*?)\s*$/.exec(text) ?? []
  const from = parseQuantity(time, 'duration')
  const range = names.indexOf(name)
  if (!from.ok || range < 0)
    throw new Refusal(
      `"${text}" is no time and range: write the time from which it holds and its name, as in "2 min=${names[0]}"; the ranges are ${names.join(', ')}.`,
    )
  return { sample: sampleAtTime(recording, from.value), range }
}
