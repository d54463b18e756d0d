/** A leakage that nobody stated, where it heads the day's charge. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { openCircuit_V } from '../../supply/cell.ts'
import { batteryCurrent_A } from '../../supply/regulator.ts'
import type { Supply } from '../../supply/supply.ts'
import { momentsOf } from '../../wake/moments.ts'
import type { Wake } from '../../wake/wake.ts'
import { resolvePart } from '../inputs.ts'
import { wakesOf } from './check-wake.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

const DAY_s = 86_400
/** The budget is drawn up for a cell half full, at 20 °C. */
const MIDDLE_STATE = 0.5
const MIDDLE_C = 20
/** An assumption that takes more of a day's charge than this is worth a measurement. */
const LARGE_SHARE = 0.2

export function checkLeakage(
  designOfWake: Wake,
  design: Supply,
  entry: OutpostFile['supply'],
  zone_h: number | null,
  findings: Findings,
): void {
  if (entry.capacitor === undefined || entry.capacitor.leakage !== undefined) return
  const supply = resolvePart(design, best)
  const leakage_A = supply.capacitor?.leakage_A ?? 0
  const share = leakage_A / (leakage_A + loadOf_A(resolvePart(designOfWake, best), supply, zone_h))
  if (!(share > LARGE_SHARE)) return
  findings.warn(
    ['supply', 'capacitor'],
    {
      code: 'leakage-assumed-large',
      message: `the capacitor's leakage is not stated; the ${formatQuantity(leakage_A, 'current', { digits: 2 })} assumed would be ${Math.round(100 * share)} % of a day's charge`,
      expected: 'its leakage after days at the voltage of the battery, as in "leakage: 0.5..2 µA"',
      cure: 'take it from the data sheet, or charge the capacitor for some days and measure what it still draws',
    },
    'key',
  )
}

/** All else that the battery gives on average, self-discharge left out; an efficiency is that at the mean current. */
function loadOf_A(wake: Wake<number>, supply: Supply<number>, zone_h: number | null): number {
  const { charge_C, duration_s } = momentsOf(wake).total
  const wakes_per_s = (wakesOf(wake, zone_h)?.wakesPerDay ?? 0) / DAY_s
  const drains_A = (from: 'rail' | 'cell') =>
    wake.standing.reduce((sum, drain) => sum + (drain.from === from ? drain.current_A : 0), 0)
  const resting = Math.max(0, 1 - wakes_per_s * duration_s)
  const rail_A = drains_A('rail') + resting * wake.rest_A + wakes_per_s * charge_C
  const battery_V = openCircuit_V(supply.pack.cell, MIDDLE_STATE, MIDDLE_C) * supply.pack.series
  return drains_A('cell') + (batteryCurrent_A(supply.regulator, rail_A, battery_V) ?? 0)
}
