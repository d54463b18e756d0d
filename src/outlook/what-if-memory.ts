/**
 * What a what-if keeps from one stroke of a key to the next: skies and panel tables, by all that they depend on. Nothing in
 * it changes an answer, only how soon it comes. The oldest go first: what is kept takes up to 40 MB, beside
 * what the design at hand needs.
 */
import type { Outpost } from '../outpost/outpost.ts'
import type { Place } from '../sky/place.ts'
import { fitPanel } from '../supply/fit-panel.ts'
import { type PanelTable, panelTable } from '../supply/panel-table.ts'
import type { Panel } from '../supply/supply.ts'
import { Kept } from './kept.ts'
import { LifeSkies } from './what-if-life-sky.ts'
import type { Strides } from './what-if-strides.ts'
import { type Warmth, WinterSkies } from './what-if-winter-sky.ts'

/** Two hundred winters take three megabytes, or eight in short steps; as many lives, two. */
const SKIES_BYTES = 32 * 2 ** 20
const TABLES_BYTES = 8 * 2 ** 20
/** Nodes of a panel's table, in modified ideality factors: see `panelTable`. */
const FINENESS = 1 / 3

export class WhatIfMemory {
  private readonly winterSkies = new Kept<WinterSkies>(SKIES_BYTES / 2, ({ bytes }) => bytes)
  private readonly lifeSkies = new Kept<LifeSkies>(SKIES_BYTES / 2, ({ bytes }) => bytes)
  private readonly tables = new Kept<PanelTable>(TABLES_BYTES, ({ values }) => values.byteLength)

  winters(
    place: Outpost['place'],
    seed: number,
    cutDay: number,
    stepHours: number,
    { low_C, high_C }: Warmth,
  ): WinterSkies {
    return this.winterSkies.get(
      JSON.stringify([skyOf(place), place.enclosureRise_K, seed, cutDay, stepHours, low_C, high_C]),
      () => new WinterSkies(place, seed, cutDay, stepHours, { low_C, high_C }),
    )
  }

  lives(place: Place<number>, seed: number, cutDay: number, strides: Strides): LifeSkies {
    return this.lifeSkies.get(
      JSON.stringify([skyOf(place), seed, cutDay, strides.key]),
      () => new LifeSkies(place, seed, cutDay, strides),
    )
  }

  table(panel: Panel<number>, holds: PanelTable['holds'], low_V: number, high_V: number): PanelTable {
    return this.tables.get(JSON.stringify([panel, holds, low_V, high_V]), () =>
      panelTable(fitPanel(panel), holds, low_V, high_V, FINENESS),
    )
  }
}

/** All of a place but what the plan takes in: height, dirt and, but for charging, the enclosure's warmth. */
const skyOf = (place: Place<unknown>) => [
  place.latitude_deg,
  place.longitude_deg,
  place.zone_h,
  place.horizon,
  place.climate,
  place.tilt_deg,
  place.azimuth_deg,
  place.albedo,
]
