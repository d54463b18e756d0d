/** From what the file says of the supply to the engine's. */
import { formatQuantity } from '../../quantity/format.ts'
import { best } from '../../quantity/spread.ts'
import { exactly, type Uncertain } from '../../quantity/uncertain.ts'
import type { Pack, Regulator, Supply } from '../../supply/supply.ts'
import { compilePack } from './compile-cell.ts'
import { compileCharger, compilePanel, withLockOut } from './compile-charging.ts'
import { compileCapacitor, compileRegulator } from './compile-regulator.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

/** Null where cell or panel could not be made out. */
export function compileSupply(entry: OutpostFile['supply'], findings: Findings): Supply | null {
  const bare = compilePack(entry.cell, findings)
  const regulator = compileRegulator(entry.regulator, findings)
  const panel = entry.panel === undefined ? null : compilePanel(entry.panel, findings)
  if (bare === null || (panel === null && entry.panel !== undefined)) return null
  const pack = entry.charger === undefined ? bare : withLockOut(entry.charger, bare, findings)
  return {
    pack,
    regulator,
    capacitor: compileCapacitor(entry.capacitor, fullVoltage_V(pack), findings),
    brownout: {
      at_V: entry.brownout.value,
      restart_V: entry['restart above']?.value ?? usualRestart(entry.brownout.value, regulator, findings),
    },
    charger: entry.charger === undefined ? null : compileCharger(entry.charger, bare, findings),
    panel,
  }
}

/** The lowest battery voltage at which the rail can be back at the brown-out threshold. */
function usualRestart(at_V: Uncertain, regulator: Regulator, findings: Findings): Uncertain {
  const restart = lowestRestart(at_V, regulator)
  findings.assume(
    ['supply', 'restart above'],
    `after a brown-out it starts again as soon as it can, at ${formatQuantity(best(restart), 'voltage', { digits: 3 })}`,
    'default',
  )
  return restart
}

function lowestRestart(at_V: Uncertain, regulator: Regulator): Uncertain {
  switch (regulator.kind) {
    case 'none':
      return at_V
    case 'linear':
    case 'buck':
      return exactly(best(at_V) + best(regulator.dropOut_V))
    case 'boost':
    case 'buck-boost':
      return regulator.minimum_V
  }
}

/** Highest voltage of the pack: that of full cells at rest, or at the end of their charge. */
export function fullVoltage_V({ cell, series }: Pick<Pack, 'cell' | 'series'>): number {
  return Math.max(...cell.openCircuit_V.y, cell.charging?.full_V ?? 0) * series
}
