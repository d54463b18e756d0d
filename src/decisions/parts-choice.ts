/** The combination of a cell and a panel from a list of parts that costs least, of those that are shown to suffice. */
import { resolvePart } from '../outpost/inputs.ts'
import type { Outpost } from '../outpost/outpost.ts'
import type { CellPart, PanelPart, PartsList } from '../outpost/parts.ts'
import { best } from '../quantity/spread.ts'
import type { Pack, Panel } from '../supply/supply.ts'
import { type DesignSpace, isRechargeable, type Picked } from './common-runs.ts'
import { type Sized, sizedOf } from './sizing.ts'
import { Evidence, type Ruling, type Standard } from './sizing-evidence.ts'
import type { Settings } from './sizing-space.ts'
import { inParallel, type Study } from './study.ts'

export interface Combination {
  readonly cell: string
  /** Null without a panel. */
  readonly panel: string | null
  readonly cost: number
  readonly pick: Picked
}

export interface PartsChoice {
  readonly objective: string
  readonly cheapest: (Combination & { readonly design: Sized }) | null
  /** Cheaper ones, from the cheapest on, that were played and not shown to suffice. */
  readonly cheaper: readonly (Combination & { readonly design: Sized; readonly ruling: Ruling })[]
  readonly combinations: number
  /** Cells that the outpost's charger does not suit, and why. */
  readonly unsuited: readonly { readonly cell: string; readonly why: string }[]
}

export interface PartsSpace {
  readonly space: DesignSpace
  /** By rising cost; of equals the one that stands first in the list. */
  readonly combinations: readonly Combination[]
  readonly unsuited: PartsChoice['unsuited']
}

/** Designs of all combinations. Throws RangeError where the list has no column of that name. */
export function partsSpace(
  outpost: Outpost,
  parts: PartsList,
  objective: string,
  settings: Settings,
): PartsSpace {
  if (!parts.columns.some(({ name }) => name === objective))
    throw new RangeError(`no column "${objective}" is filled in for every part`)
  const judged = parts.cells.map((part) => ({ part, why: unsuitedBecause(outpost, part.pack) }))
  const cells = judged.filter(({ why }) => why === null).map(({ part }) => part)
  const panels: readonly (PanelPart | null)[] = isRechargeable(outpost) ? parts.panels : [null]
  const cost = (part: CellPart | PanelPart | null) => part?.costs[objective] ?? 0
  const combinations = cells.flatMap((cell, pack) =>
    panels.map((panel, i) => ({
      cell: cell.name,
      panel: panel?.name ?? null,
      cost: cost(cell) + cost(panel),
      pick: { pack, panel: i, interval: 0 },
    })),
  )
  return {
    space: {
      ...settings,
      outpost,
      packs: cells.map(({ pack }) => withLockOutOf(outpost, pack)),
      panels: panels.map((part) => (part === null ? null : { panel: part.panel, times: 1 })),
      intervals_s: [null],
    },
    combinations: combinations.sort((a, b) => a.cost - b.cost),
    unsuited: judged.flatMap(({ part, why }) => (why === null ? [] : [{ cell: part.name, why }])),
  }
}

/** A charger set for another chemistry would never fill the cell, or would harm it. */
function unsuitedBecause({ supply }: Outpost, pack: Pack): string | null {
  if (supply.charger === null || supply.panel === null) return null
  const { charging } = pack.cell
  if (charging === null) return 'it must not be charged, and the outpost has a charger'
  const set_V = best(supply.charger.full_V) * supply.pack.series
  const full_V = charging.full_V * pack.series
  return Math.abs(set_V / full_V - 1) > 0.02
    ? `the charger stops at ${set_V.toFixed(2)} V and this cell is full at ${full_V.toFixed(2)} V`
    : null
}

/** The charger's cold lock-out, not the cell, says below which temperature nothing is charged. */
function withLockOutOf({ supply }: Outpost, pack: Pack): Pack {
  const { charging } = pack.cell
  const lockOut = supply.pack.cell.charging
  if (charging === null || lockOut === null) return pack
  return { ...pack, cell: { ...pack.cell, charging: { ...charging, low_C: lockOut.low_C } } }
}

/** Combinations played at a time: more than one, so that threads share weather; part of neither answer nor order. */
const AT_ONCE = 6

export function* partsStudy(
  { space, combinations, unsuited }: PartsSpace,
  objective: string,
  standard: Standard,
): Study<PartsChoice> {
  const evidence = new Evidence(standard)
  const refuted: { combination: Combination; ruling: Ruling }[] = []
  const open = [...combinations]
  while (open.length > 0) {
    // What is no better than something that failed with the same cell need not be played.
    const hopeless = (combination: Combination) =>
      refuted.some(
        ({ combination: failed, ruling }) => ruling === 'fails' && isNoBetter(space, combination, failed),
      )
    const next = open.splice(0, AT_ONCE).filter((combination) => !hopeless(combination))
    const rulings = yield* inParallel(next.map(({ pick }) => evidence.judge(pick)))
    for (const [i, combination] of next.entries()) {
      if (rulings[i] === 'passes')
        return {
          objective,
          cheapest: { ...combination, design: sizedOf(space, combination.pick, evidence) },
          cheaper: told(refuted),
          combinations: combinations.length,
          unsuited,
        }
      refuted.push({ combination, ruling: rulings[i] })
    }
  }
  return { objective, cheapest: null, cheaper: told(refuted), combinations: combinations.length, unsuited }

  function told(all: typeof refuted): PartsChoice['cheaper'] {
    return all.map(({ combination, ruling }) => ({
      ...combination,
      ruling,
      design: sizedOf(space, combination.pick, evidence),
    }))
  }
}

/** The same cell with a panel that gives no more at any voltage. */
function isNoBetter(space: DesignSpace, a: Combination, b: Combination): boolean {
  const [mine, other] = [space.panels[a.pick.panel], space.panels[b.pick.panel]]
  return (
    a.pick.pack === b.pick.pack && mine !== null && other !== null && givesNoMore(mine.panel, other.panel)
  )
}

function givesNoMore(a: Panel, b: Panel): boolean {
  const [mine, other] = [resolvePart(a, best), resolvePart(b, best)]
  return (
    mine.openCircuit_V <= other.openCircuit_V &&
    mine.shortCircuit_A <= other.shortCircuit_A &&
    mine.maximumPower_V <= other.maximumPower_V &&
    mine.maximumPower_A <= other.maximumPower_A
  )
}
