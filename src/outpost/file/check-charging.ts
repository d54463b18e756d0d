/** What cannot be, or can hurt, between panel, charger and cell. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { coldestAir_C } from '../../sky/coldest-air.ts'
import type { Place } from '../../sky/place.ts'
import { openCircuit_V } from '../../supply/cell.ts'
import { fitPanel } from '../../supply/fit-panel.ts'
import { coldOpenCircuit_V } from '../../supply/panel.ts'
import { checkPanelSheet } from '../../supply/panel-sheet.ts'
import type { Charger, Pack, Panel, Supply } from '../../supply/supply.ts'
import { resolvePart } from '../inputs.ts'
import { rateLimit_A } from './compile-charging.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

type Entry = OutpostFile['supply']

const PANEL = ['supply', 'panel'] as const
const CHARGER = ['supply', 'charger'] as const
const volts = (v: number) => formatQuantity(v, 'voltage', { digits: 3 })
const amperes = (a: number) => formatQuantity(a, 'current', { digits: 3 })

/** A charger may be set this much above the cell's usual end of charge before it counts as overcharging. */
const FULL_TOLERANCE = 1.012
const HALF = 0.5
const MIDDLE_C = 20

/** `place` is null where it could not be made out; then nothing is said of the cold. */
export function checkCharging(design: Supply, entry: Entry, place: Place | null, findings: Findings): void {
  checkParts(design, entry, findings)
  const supply = resolvePart(design, best)
  const { panel, charger, pack } = supply
  if (panel !== null && !sheetIsSound(panel, findings)) return
  if (panel === null || charger === null || pack.cell.charging === null) return
  const cold_C = place === null ? null : coldestAir_C(place.climate)
  checkFull(charger, supply.pack, findings)
  checkReach(panel, charger, supply.pack, entry, findings)
  checkOverVoltage(panel, charger, supply.pack, entry, cold_C, findings)
  checkRate(panel, charger, design.pack, findings)
  if (cold_C !== null) checkCold(supply.pack, entry, cold_C, findings)
}

function checkParts({ pack }: Supply, entry: Entry, findings: Findings): void {
  for (const part of ['charger', 'panel'] as const)
    if (entry[part] !== undefined && pack.cell.charging === null)
      findings.error(
        ['supply', part],
        {
          code: `primary-with-${part}`,
          message: `${pack.cell.name} cells are primary: charged, they leak, vent or burst`,
          expected: `no ${part}, or a rechargeable cell`,
          cure: `remove the ${part}, or choose Li-ion, LiFePO4, HR6, VRLA or a supercapacitor`,
        },
        'key',
      )
  if (entry.panel !== undefined && entry.charger === undefined && pack.cell.charging !== null)
    findings.error(
      PANEL,
      {
        code: 'panel-without-charger',
        message: 'nothing stands between panel and cell',
        expected: 'a charger: diode, linear or maximum-power',
        cure: 'add "charger: { kind: linear }", for example',
      },
      'key',
    )
  if (entry.charger !== undefined && entry.panel === undefined && pack.cell.charging !== null)
    findings.error(
      CHARGER,
      {
        code: 'charger-without-panel',
        message: 'the charger has no panel to charge from',
        expected: 'a panel',
        cure: 'add "panel: { rated: 1 W at 6 V }", for example, or remove the charger',
      },
      'key',
    )
}

function sheetIsSound(panel: Panel<number>, findings: Findings): boolean {
  try {
    checkPanelSheet(panel)
    return true
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    findings.error(
      PANEL,
      {
        code: 'panel-inconsistent',
        message: error.message,
        expected: 'numbers of one panel at 1000 W/m² and 25 °C',
        cure: 'check each against the data sheet',
      },
      'key',
    )
    return false
  }
}

function checkFull(charger: Charger<number>, pack: Pack<number>, findings: Findings): void {
  const { cell, series } = pack
  const full_V = cell.charging?.full_V ?? 0
  const path = [...CHARGER, 'full']
  if (charger.full_V > full_V * FULL_TOLERANCE)
    findings.error(path, {
      code: 'overcharge',
      message: `the charger holds ${volts(charger.full_V * series)}, and ${series} × ${cell.name} bear ${volts(full_V * series)}`,
      expected: `at most ${volts(full_V * series)}`,
      cure: 'set the charger for this chemistry and number of cells; see the data sheet of the cell',
    })
  const half_V = openCircuit_V(cell, HALF, MIDDLE_C)
  if (charger.full_V < half_V)
    findings.error(path, {
      code: 'never-half-full',
      message: `the charger stops at ${volts(charger.full_V * series)}, and the battery rests at ${volts(half_V * series)} when half full`,
      expected: `about ${volts(full_V * series)}`,
      cure: 'set the charger for this chemistry and number of cells',
    })
}

function checkReach(
  panel: Panel<number>,
  charger: Charger<number>,
  pack: Pack<number>,
  entry: Entry,
  findings: Findings,
): void {
  if (charger.kind === 'maximum-power') return
  const drop_V = charger.kind === 'diode' ? charger.drop_V : charger.dropOut_V
  const half_V = openCircuit_V(pack.cell, HALF, MIDDLE_C) * pack.series
  const full_V = charger.full_V * pack.series
  const path = [...PANEL, entry.panel?.rated ? 'rated' : 'maximum power']
  const never = panel.openCircuit_V < half_V + drop_V
  if (!never && panel.maximumPower_V >= full_V + drop_V) return
  findings[never ? 'error' : 'warn'](never && !entry.panel?.rated ? [...PANEL, 'open circuit'] : path, {
    code: never ? 'panel-never-charges' : 'panel-voltage-low',
    message: never
      ? `${volts(panel.openCircuit_V)} at open circuit do not reach the ${volts(half_V)} of a half-full battery and the ${volts(drop_V)} of the charger`
      : `the panel's best point is at ${volts(panel.maximumPower_V)}, and a full battery with the charger's drop needs ${volts(full_V + drop_V)}: beyond that the current falls away`,
    expected: `a panel with its best point above ${volts(full_V + drop_V)}`,
    cure: 'take a panel with more cells in series, or a maximum-power charger that steps up',
  })
}

function checkOverVoltage(
  panel: Panel<number>,
  charger: Charger<number>,
  pack: Pack<number>,
  entry: Entry,
  cold_C: number | null,
  findings: Findings,
): void {
  const open_V = coldOpenCircuit_V(fitPanel(panel), cold_C ?? MIDDLE_C)
  const at = cold_C === null ? '' : ` at ${Math.round(cold_C)} °C`
  const highest = entry.charger?.kind === 'diode' ? undefined : entry.charger?.['highest input']
  if (highest !== undefined && open_V > best(highest.value))
    findings.error([...CHARGER, 'highest input'], {
      code: 'panel-above-charger',
      message: `in full sun${at} the open panel gives ${volts(open_V)}, and the charger bears ${volts(best(highest.value))}`,
      expected: `a charger for more than ${volts(open_V)}`,
      cure: 'take a panel with fewer cells in series, or a charger that bears more',
    })
  const full_V = charger.full_V * pack.series
  if (charger.kind === 'diode' && entry.charger?.full === undefined && open_V - charger.drop_V > full_V)
    findings.warn(
      CHARGER,
      {
        code: 'nothing-limits-charge',
        message: `through a diode the open panel pushes the battery to ${volts(open_V - charger.drop_V)}${at}, and it bears ${volts(full_V)}`,
        expected: 'a shunt that holds the full voltage, stated as "full"',
        cure: `add the shunt and "full: ${volts(full_V)}", or use a linear charger`,
      },
      'key',
    )
}

function checkRate(panel: Panel<number>, charger: Charger<number>, design: Pack, findings: Findings): void {
  const bears_A = rateLimit_A(design)
  const gives_A =
    charger.kind === 'diode' ? panel.shortCircuit_A : Math.min(panel.shortCircuit_A, charger.limit_A)
  if (charger.kind === 'maximum-power' || gives_A <= bears_A) return
  findings.warn([...CHARGER, charger.kind === 'diode' ? 'kind' : 'limit'], {
    code: 'charged-too-fast',
    message: `in full sun ${amperes(gives_A)} flow into a battery that may take ${amperes(bears_A)}`,
    expected: `a limit of at most ${amperes(bears_A)}`,
    cure: 'limit the charging current, or take a larger cell; the forecast counts no more than the cell may take',
  })
}

function checkCold(pack: Pack<number>, entry: Entry, cold_C: number, findings: Findings): void {
  const { chemistry, charging } = pack.cell
  if (chemistry !== 'Li-ion' && chemistry !== 'LiFePO4') return
  const lockOut = entry.charger?.['cold lock-out']
  if (charging === null || (lockOut !== undefined && charging.low_C >= 0) || cold_C >= 0) return
  const stated =
    lockOut === undefined ? 'nothing is said of a lock-out; one at 0 °C is assumed' : 'the charger goes on'
  findings.warn(
    lockOut === undefined ? CHARGER : [...CHARGER, 'cold lock-out'],
    {
      code: 'cold-charging',
      message: `it gets as cold as ${Math.round(cold_C)} °C there, charging a lithium cell below 0 °C plates metal inside it, and ${stated}`,
      expected: '"cold lock-out: 0 °C" or higher',
      cure: 'use a charger that measures the temperature of the cell, and state its lock-out',
    },
    lockOut === undefined ? 'key' : 'value',
  )
}
