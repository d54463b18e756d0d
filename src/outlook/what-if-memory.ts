/**
 * What a what-if keeps from one stroke of a key to the next: skies and panel tables, by all that they depend on. Nothing in
 * it changes an answer, only how soon it comes. The oldest go first; what is kept takes less than 64 MB.
 */

import type { Outpost } from '../outpost/outpost.ts'
import type { Place } from '../sky/place.ts'
import { fitPanel } from '../supply/fit-panel.ts'
import { type PanelTable, panelTable } from '../supply/panel-table.ts'
import type { Panel } from '../supply/supply.ts'
import { LifeSkies } from './what-if-life-sky.ts'
import type { Strides } from './what-if-strides.ts'
import { WinterSkies } from './what-if-winter-sky.ts'

/** Twenty kilobytes a run of winters, fifteen of a whole life. */
const SKIES_KEPT = 3
const TABLES_KEPT = 8
/** Nodes of a panel's table, in modified ideality factors: see `panelTable`. */
const FINENESS = 1 / 3

export class WhatIfMemory {
  private readonly winterSkies = new Map<string, WinterSkies>()
  private readonly lifeSkies = new Map<string, LifeSkies>()
  private readonly tables = new Map<string, PanelTable>()

  winters(place: Outpost['place'], seed: number, cutDay: number, stepHours: number): WinterSkies {
    const { tilt_deg, azimuth_deg, albedo } = place
    return remembered(
      this.winterSkies,
      SKIES_KEPT,
      JSON.stringify([skyOf(place), seed, cutDay, stepHours, tilt_deg, azimuth_deg, albedo]),
      () => new WinterSkies(place, seed, cutDay, stepHours),
    )
  }

  lives(place: Place<number>, seed: number, cutDay: number, strides: Strides): LifeSkies {
    const { tilt_deg, azimuth_deg, albedo } = place
    return remembered(
      this.lifeSkies,
      SKIES_KEPT,
      JSON.stringify([skyOf(place), seed, cutDay, tilt_deg, azimuth_deg, albedo, strides.key]),
      () => new LifeSkies(place, seed, cutDay, strides),
    )
  }

  table(panel: Panel<number>, holds: PanelTable['holds'], low_V: number, high_V: number): PanelTable {
    return remembered(this.tables, TABLES_KEPT, JSON.stringify([panel, holds, low_V, high_V]), () =>
      panelTable(fitPanel(panel), holds, low_V, high_V, FINENESS),
    )
  }
}

const skyOf = ({ latitude_deg, longitude_deg, zone_h, horizon, climate }: Place<unknown>) => [
  latitude_deg,
  longitude_deg,
  zone_h,
  horizon,
  climate,
]

/** The value kept under `key`, or a new one; a map gives its keys in the order in which they were put in. */
function remembered<V>(kept: Map<string, V>, most: number, key: string, make: () => V): V {
  const value = kept.get(key) ?? make()
  kept.delete(key)
  kept.set(key, value)
  if (kept.size > most) kept.delete([...kept.keys()][0])
  return value
}
