/** What cannot be, or will disappoint, between cell, regulator, brown-out and the device's bursts. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { openCircuit_V, resistance_Ohm } from '../../supply/cell.ts'
import type { Supply } from '../../supply/supply.ts'
import type { Wake } from '../../wake/wake.ts'
import { resolvePart } from '../inputs.ts'
import { fullVoltage_V } from './compile-supply.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

const AT = ['supply'] as const
const volts = (v: number) => formatQuantity(v, 'voltage', { digits: 3 })

/** Half full at 20 °C a cell should not sag by more than this share of its voltage: common practice, from memory. */
const HEAVY_SAG = 0.15
const MIDDLE_STATE = 0.5
const MIDDLE_C = 20
/** The capacitor carries a burst if it sags by no more than this share of the voltage. */
const CARRIED_SAG = 0.1

export function checkSupply(design: Supply, entry: OutpostFile['supply'], findings: Findings): void {
  const supply = resolvePart(design, best)
  const { regulator, brownout } = supply
  const full_V = fullVoltage_V(design.pack)
  checkRegulator(supply, full_V, findings)
  if (regulator.kind !== 'none' && brownout.at_V >= regulator.output_V)
    findings.error([...AT, 'brownout'], {
      code: 'brownout-above-output',
      message: `the device stops below ${volts(brownout.at_V)}, and the regulator gives ${volts(regulator.output_V)}`,
      expected: `a brown-out below ${volts(regulator.output_V)}`,
      cure: "take the threshold from the device's data sheet, or raise the output",
    })
  if (!isBoosting(supply) && brownout.at_V >= full_V)
    findings.error([...AT, 'brownout'], {
      code: 'brownout-above-cell',
      message: `the device stops below ${volts(brownout.at_V)}, and the battery gives ${volts(full_V)} when full`,
      expected: `a brown-out below ${volts(full_V)}`,
      cure: 'put more cells in series, or use a boost converter',
    })
  checkRestart(supply, full_V, entry, findings)
  const rating = entry.capacitor?.rating
  if (rating !== undefined && best(rating.value) < full_V)
    findings.error([...AT, 'capacitor', 'rating'], {
      code: 'capacitor-over-voltage',
      message: `the capacitor bears ${volts(best(rating.value))}, and the battery reaches ${volts(full_V)}`,
      expected: `a capacitor for at least ${volts(full_V)}`,
      cure: 'take one with a higher voltage, with something in hand',
    })
  const { cell, parallel } = supply.pack
  if (cell.charging === null && cell.chemistry.startsWith('Li-') && parallel > 1)
    findings.warn([...AT, 'cell', 'parallel'], {
      code: 'primary-in-parallel',
      message: `${parallel} primary lithium cells in parallel charge one another where their voltages differ`,
      expected: 'one string, or a diode in each',
      cure: 'take a larger cell, or put a diode into each string; see the data sheet of the cell',
    })
}

const isBoosting = ({ regulator }: Supply<number>): boolean =>
  regulator.kind === 'boost' || regulator.kind === 'buck-boost'

function checkRegulator({ regulator }: Supply<number>, full_V: number, findings: Findings): void {
  if (regulator.kind === 'none') return
  const needed_V = regulator.output_V + regulator.dropOut_V
  if ((regulator.kind === 'linear' || regulator.kind === 'buck') && full_V < needed_V)
    findings.error([...AT, 'regulator', 'output'], {
      code: 'regulator-out-of-reach',
      message: `${volts(regulator.output_V)} and ${volts(regulator.dropOut_V)} of drop-out need ${volts(needed_V)}, and the battery gives ${volts(full_V)} when full`,
      expected: `an output below ${volts(full_V - regulator.dropOut_V)}`,
      cure: 'lower the output, put more cells in series, or use a buck-boost converter',
    })
  if (regulator.kind === 'boost' && full_V > needed_V)
    findings.warn([...AT, 'regulator', 'output'], {
      code: 'boost-below-input',
      message: `a full battery of ${volts(full_V)} passes through a boost converter set to ${volts(regulator.output_V)}, and the rail follows it`,
      expected: `an output above ${volts(full_V)}, or a buck-boost converter`,
      cure: 'check that the device bears it, or use a buck-boost converter',
    })
  if ((regulator.kind === 'boost' || regulator.kind === 'buck-boost') && regulator.minimum_V >= full_V)
    findings.error([...AT, 'regulator', 'minimum'], {
      code: 'regulator-never-starts',
      message: `the converter works from ${volts(regulator.minimum_V)}, and the battery gives ${volts(full_V)} when full`,
      expected: `a minimum below ${volts(full_V)}`,
      cure: 'check the minimum, or put more cells in series',
    })
}

function checkRestart(
  supply: Supply<number>,
  full_V: number,
  entry: OutpostFile['supply'],
  findings: Findings,
): void {
  if (entry['restart above'] === undefined) return
  const { at_V, restart_V } = supply.brownout
  const path = [...AT, 'restart above']
  if (!isBoosting(supply) && restart_V < at_V)
    findings.error(path, {
      code: 'restart-below-brownout',
      message: `it is to start again above ${volts(restart_V)}, and stops below ${volts(at_V)}`,
      expected: `a voltage above the brown-out, ${volts(at_V)}`,
      cure: 'raise it by more than the battery sags under the first wake',
    })
  if (restart_V >= full_V)
    findings.error(path, {
      code: 'restart-never-reached',
      message: `it is to start again above ${volts(restart_V)}, and the battery reaches ${volts(full_V)} when full`,
      expected: `a voltage below ${volts(full_V)}`,
      cure: 'lower it',
    })
}

/** Bursts against what the cell gives without sagging, where no capacitor carries them. */
export function checkBursts(designOfWake: Wake, design: Supply, findings: Findings): void {
  const supply = resolvePart(design, best)
  const wake = resolvePart(designOfWake, best)
  const { pack, capacitor } = supply
  const open_V = openCircuit_V(pack.cell, MIDDLE_STATE, MIDDLE_C) * pack.series
  const ohms = (resistance_Ohm(pack.cell, MIDDLE_STATE, MIDDLE_C, 0) * pack.series) / pack.parallel
  const usual_A = (HEAVY_SAG * open_V) / ohms
  for (const list of ['boot', 'steps'] as const)
    for (const [i, step] of wake[list].entries()) {
      const burst = step.peak ?? step
      const carried =
        capacitor !== null &&
        burst.current_A * burst.duration_s <= CARRIED_SAG * open_V * capacitor.capacitance_F
      if (burst.current_A <= usual_A || carried) continue
      findings.warn(['wake', list, i, step.peak ? 'peak' : 'draws'], {
        code: 'burst-heavy-for-cell',
        message: `${formatQuantity(burst.current_A, 'current', { digits: 3 })} make half-empty ${pack.cell.name} sag by ${volts(burst.current_A * ohms)} of its ${volts(open_V)}, and cold by more`,
        expected: `bursts up to about ${formatQuantity(usual_A, 'current', { digits: 2 })}`,
        cure: 'put a capacitor across it that carries the burst, or take a cell with less resistance',
      })
    }
}
