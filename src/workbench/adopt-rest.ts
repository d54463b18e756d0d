/** The numbers of what flows between wakes, from what was measured of it. */
import { meanOf } from '../quantity/spread.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import { currentInWords } from '../report/recording-words.ts'
import { type Adopted, currentText, without } from './adopt-numbers.ts'

/** The file states the rest without the drains that flow always; the instrument saw both. */
export function restNumber(
  rest: Uncertain | null,
  states: readonly number[],
  always: readonly Uncertain[],
): Adopted {
  if (rest === null) return { numbers: [], notes: ['The recording shows no rest: that of the file stays.'] }
  const alone = without(rest, always)
  const isLess = alone.kind === 'below' ? alone.limit <= 0 : meanOf(alone) <= 0
  if (isLess && always.length > 0)
    return {
      numbers: [],
      notes: [
        `At rest the device draws ${currentInWords(rest)}, no more than the standing drains of the file take by themselves: the rest stays as it is. Check the drains.`,
      ],
    }
  return { numbers: [{ path: ['rest'], text: currentText(alone), states }], notes: [] }
}

export function drainNumber(drain: Uncertain, index: number, states: readonly number[]): Adopted {
  return { numbers: [{ path: ['standing', index, 'draws'], text: currentText(drain), states }], notes: [] }
}
