/** The voltage that a device ran from, as a recording with a column of volts shows it. */
import { CompensatedSum } from '../numeric/sum.ts'
import { blockAtTime, readBlock } from './access.ts'
import type { Recording } from './recording.ts'
import { heldWithin, type Span, type SpanStatistics, samplesWithin } from './span.ts'

/** Sums of many holds differ by their last digits; more than this of the time is a column with places empty. */
const ALL = 1 - 1e-9

/**
 * Mean voltage under load in V: energy over charge, both of the time in which current and voltage are known. Null where
 * they never are together, or where no charge flowed in that time.
 */
export function supplyVoltage(recording: Recording, span: Span, statistics: SpanStatistics): number | null {
  const { energy_J, charge_C, covered_s, energyCovered_s } = statistics
  if (energy_J === null) return null
  const whole = energyCovered_s >= ALL * covered_s
  const same_C = whole ? charge_C : chargeWithVoltage(recording, span)
  return same_C > 0 ? energy_J / same_C : null
}

/** Charge in C of the samples whose voltage is known as well. */
function chargeWithVoltage(recording: Recording, span: Span): number {
  const charge_C = new CompensatedSum()
  const last = blockAtTime(recording, span.to_s)
  for (let b = blockAtTime(recording, span.from_s); b <= last; b++) {
    const block = readBlock(recording, b)
    const { from, to } = samplesWithin(block, span)
    for (let i = from; i < to; i++) {
      const power_W = block.voltage_V === null ? Number.NaN : block.current_A[i] * block.voltage_V[i]
      if (Number.isFinite(power_W)) charge_C.add(block.current_A[i] * heldWithin(block, i, span))
    }
  }
  return charge_C.value
}
