/** The energy of a span in words, with the time that it is of where volts are known for a part of it only. */
import { formatQuantity } from '../quantity/format.ts'
import type { SpanStatistics } from '../recording/span.ts'
import { duration } from './recording-words.ts'

/** What sums of many holds leave in their last digits is no time. */
const ALL = 1 - 1e-9

/** Null where no energy is known. */
export function energyInWords(
  { energy_J, covered_s, energyCovered_s }: SpanStatistics,
  digits: number,
): string | null {
  if (energy_J === null) return null
  const energy = formatQuantity(energy_J, 'energy', { digits })
  return energyCovered_s >= ALL * covered_s
    ? energy
    : `${energy} in the ${duration(energyCovered_s)} for which volts are known`
}
