/** From what the file says of charger and panel to the engine's. */
import { times } from '../../quantity/scaled.ts'
import { best } from '../../quantity/spread.ts'
import { exactly, type Uncertain } from '../../quantity/uncertain.ts'
import { usualCoefficients } from '../../supply/panel.ts'
import type { Charger, Pack, Panel } from '../../supply/supply.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

type ChargerEntry = NonNullable<OutpostFile['supply']['charger']>
type PanelEntry = NonNullable<OutpostFile['supply']['panel']>

const CHARGER = ['supply', 'charger'] as const
const PANEL = ['supply', 'panel'] as const
const COMMON_PRACTICE = 'common practice, from memory'

/** A Schottky diode at some tens of milliamperes; a small linear charger; a small converter; each with its spread. */
const USUAL = {
  diodeDrop_V: { kind: 'uniform', low: 0.25, high: 0.4 },
  dropOut_V: { kind: 'uniform', low: 0.1, high: 0.3 },
  efficiency: { kind: 'uniform', low: 0.75, high: 0.9 },
  quiescent_A: { kind: 'uniform', low: 0, high: 5e-6 },
} as const satisfies Record<string, Uncertain>

/** Open-circuit voltage and short-circuit current over those at the best point: a fill factor of 0.76. */
const USUAL_OPEN_CIRCUIT = 1.22
const USUAL_SHORT_CIRCUIT = 1.08

const COLDER_THAN_ANY_AIR_C = -100

export function compileCharger(entry: ChargerEntry, pack: Pack, findings: Findings): Charger {
  const assumed = (
    key: string,
    given: { readonly value: Uncertain } | undefined,
    usual: Uncertain,
    text: string,
  ) => {
    if (given !== undefined) return given.value
    findings.assume([...CHARGER, key], text, COMMON_PRACTICE)
    return usual
  }
  const full_V = compileFull(entry, pack, findings)
  const quiescent_A = assumed('quiescent', entry.quiescent, USUAL.quiescent_A, '0..5 µA')
  if (entry.kind === 'diode')
    return {
      kind: 'diode',
      drop_V: assumed('drop', entry.drop, USUAL.diodeDrop_V, '0.25..0.4 V'),
      quiescent_A,
      full_V,
    }
  const limit_A = entry.limit?.value ?? exactly(rateLimit_A(pack))
  if (entry.limit === undefined)
    findings.assume(
      [...CHARGER, 'limit'],
      `${Math.round(rateLimit_A(pack) * 1000)} mA, all that the cell may take`,
      'usual charging rate of the chemistry, from memory',
    )
  const common = { limit_A, quiescent_A, full_V }
  return entry.kind === 'linear'
    ? {
        kind: 'linear',
        dropOut_V: assumed('drop-out', entry['drop-out'], USUAL.dropOut_V, '0.1..0.3 V'),
        ...common,
      }
    : {
        kind: 'maximum-power',
        efficiency: assumed('efficiency', entry.efficiency, USUAL.efficiency, '75..90 %'),
        ...common,
      }
}

/** The engine counts per cell what the file, like a data sheet, says of the whole pack. */
function compileFull(entry: ChargerEntry, pack: Pack, findings: Findings): Uncertain {
  if (entry.full !== undefined) return times(entry.full.value, 1 / pack.series)
  const full_V = pack.cell.charging?.full_V ?? 0
  findings.assume(
    [...CHARGER, 'full'],
    `charges to ${(full_V * pack.series).toPrecision(3)} V`,
    'usual end-of-charge voltage of the chemistry, from memory',
  )
  return exactly(full_V)
}

export const rateLimit_A = ({ cell, capacity_C, parallel }: Pack): number =>
  ((cell.charging?.rateLimit_per_h ?? 0) * best(capacity_C) * parallel) / 3600

/** The pack with the charger's cold lock-out in place of the cell's own limit. */
export function withLockOut(entry: ChargerEntry, pack: Pack, findings: Findings): Pack {
  const window = pack.cell.charging
  if (window === null) return pack
  const lockOut = entry['cold lock-out']
  if (lockOut === undefined) {
    findings.assume(
      [...CHARGER, 'cold lock-out'],
      `no charging below ${window.low_C} °C`,
      'usual limit of the chemistry, from memory',
    )
    return pack
  }
  const low_C = lockOut === 'none' ? COLDER_THAN_ANY_AIR_C : best(lockOut.value)
  return { ...pack, cell: { ...pack.cell, charging: { ...window, low_C } } }
}

/** Null where the numbers do not make a panel; the findings say why. */
export function compilePanel(entry: PanelEntry, findings: Findings): Panel | null {
  const stated = compileBestPoint(entry, findings)
  if (stated === null) return null
  const point = atBest(stated, entry, findings)
  const technology = entry.technology ?? 'crystalline'
  const usual = usualCoefficients(technology, best(point.openCircuit_V))
  if (entry.technology === undefined)
    findings.assume([...PANEL, 'technology'], 'crystalline silicon', 'default')
  findings.assume(
    [...PANEL],
    `voltage ${(usual.voltageCoefficient_per_K * 100).toFixed(2)} %/K, current +${(usual.currentCoefficient_per_K * 100).toFixed(2)} %/K`,
    COMMON_PRACTICE,
  )
  if (entry.cells === undefined)
    findings.assume([...PANEL, 'cells'], `${usual.cellsInSeries} cells in series`, COMMON_PRACTICE)
  if (entry.rise === undefined)
    findings.assume([...PANEL, 'rise'], `${usual.rise_K} K above the air at 800 W/m²`, COMMON_PRACTICE)
  return {
    ...point,
    currentCoefficient_per_K: exactly(usual.currentCoefficient_per_K),
    voltageCoefficient_per_K: exactly(usual.voltageCoefficient_per_K),
    cellsInSeries: entry.cells ?? usual.cellsInSeries,
    rise_K: entry.rise?.value ?? exactly(usual.rise_K),
  }
}

/**
 * The four numbers of one panel hang together: drawn one by one from their tolerances they would make no panel at all.
 * A tolerance of the light itself does the same, and can be drawn.
 */
function atBest(stated: BestPoint, entry: PanelEntry, findings: Findings): BestPoint {
  if (Object.values(stated).some(({ kind }) => kind !== 'exact'))
    findings.warn(
      entry.rated ? [...PANEL, 'rated'] : PANEL,
      {
        code: 'panel-tolerance-unused',
        message: 'the panel is taken at its best values: tolerances of its numbers are not drawn one by one',
        expected: 'numbers without a tolerance',
        cure: 'say what is not known of the light as soiling: "soiling: 2..12 %"',
      },
      entry.rated ? 'value' : 'key',
    )
  return {
    openCircuit_V: exactly(best(stated.openCircuit_V)),
    shortCircuit_A: exactly(best(stated.shortCircuit_A)),
    maximumPower_V: exactly(best(stated.maximumPower_V)),
    maximumPower_A: exactly(best(stated.maximumPower_A)),
  }
}

type BestPoint = Pick<Panel, 'openCircuit_V' | 'shortCircuit_A' | 'maximumPower_V' | 'maximumPower_A'>

function compileBestPoint(entry: PanelEntry, findings: Findings): BestPoint | null {
  const sheet = {
    'open circuit': entry['open circuit'],
    'short circuit': entry['short circuit'],
    'maximum power': entry['maximum power'],
  }
  const missing = Object.entries(sheet).filter(([, value]) => value === undefined)
  if (entry.rated !== undefined && missing.length < 3)
    findings.error(
      [...PANEL, 'rated'],
      {
        code: 'panel-said-twice',
        message: 'the panel is given by its rating and by its data sheet',
        expected: 'either rated, or open circuit, short circuit and maximum power',
        cure: 'remove "rated"',
      },
      'key',
    )
  else if (entry.rated !== undefined) return ratedPanel(entry.rated.value, findings)
  else if (missing.length > 0)
    findings.error(
      PANEL,
      {
        code: 'panel-incomplete',
        message: `a panel needs ${missing.map(([key]) => `"${key}"`).join(' and ')} too`,
        expected: 'open circuit, short circuit and maximum power; or rated alone, as in "1 W at 6 V"',
        cure: 'take them from the data sheet, or give "rated"',
      },
      'key',
    )
  const { 'open circuit': open, 'short circuit': short, 'maximum power': peak } = sheet
  if (open === undefined || short === undefined || peak === undefined) return null
  return {
    openCircuit_V: open.value,
    shortCircuit_A: short.value,
    maximumPower_V: peak.value[0],
    maximumPower_A: peak.value[1],
  }
}

function ratedPanel([power, voltage]: readonly [Uncertain, Uncertain], findings: Findings): BestPoint {
  const voltage_V = best(voltage)
  const current: Uncertain = times(power, 1 / voltage_V)
  findings.assume(
    [...PANEL, 'rated'],
    `open circuit ${(USUAL_OPEN_CIRCUIT * voltage_V).toPrecision(3)} V, short circuit ${(USUAL_SHORT_CIRCUIT * best(current) * 1000).toPrecision(3)} mA`,
    COMMON_PRACTICE,
  )
  return {
    openCircuit_V: times(voltage, USUAL_OPEN_CIRCUIT),
    shortCircuit_A: times(current, USUAL_SHORT_CIRCUIT),
    maximumPower_V: voltage,
    maximumPower_A: current,
  }
}
