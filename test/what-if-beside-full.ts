/** A what-if and the full outlook of one design, from the same draws: an example, or one of those below. */
import { readFileSync } from 'node:fs'
import { chunkPlayer, ensembleOf } from '../src/outlook/ensemble.ts'
import type { Outlook } from '../src/outlook/outlook.ts'
import { summarise } from '../src/outlook/summary.ts'
import { whatIf } from '../src/outlook/what-if.ts'
import { WhatIfMemory } from '../src/outlook/what-if-memory.ts'
import { readOutpost } from '../src/outpost/file/read.ts'
import type { Outpost } from '../src/outpost/outpost.ts'
import { yearCut } from '../src/sky/year-cut.ts'

export const SEED = 3
const CALENDAR_YEAR = 2027

/**
 * Mild winters, whose mornings are below the charger's lock-out as often as above: most of what charges the cell comes in
 * the hours about noon, at one side of it while the mean of the morning is at the other.
 */
const ORCHARD = `overwinter: 1
title: Frost watch in an orchard
wake: { steps: [{ name: measure and send, for: 2 s, draws: 30 mA }] }
cadence: { rate: 15 min }
rest: 20 µA
supply:
  cell: { type: Li-ion, capacity: 100 mAh }
  regulator: { kind: buck-boost, output: 3.3 V, minimum: 2 V, quiescent: 100 µA, efficiency: 85 % }
  brownout: 2.9 V
  restart above: 3.6 V
  charger: { kind: linear, full: 4.2 V, cold lock-out: 0 °C }
  panel: { rated: 18 mW at 6 V }
place:
  latitude: 50
  longitude: 10
  zone: UTC+1
  tilt: 50
  azimuth: 180
  weather:
    sunshine: 1.7 2.8 4.1 5.7 6.9 7.2 7.3 6.6 5.1 3.6 1.9 1.4 h
    temperature: 0 1 5 9 14 17 19 18 14 10 4 1 °C
`

/** A pack of a week's load, filled and emptied within days whatever the week brings, so that it ages by use more than by time. */
const SMALL_PACK = ORCHARD.replace('rest: 20 µA', 'rest: 50 µA')
  .replace('100 mAh', '20 mAh')
  .replace(/ {2}regulator: .*\n/, '')
  .replace('brownout: 2.9 V', 'brownout: 3.0 V')
  .replace('18 mW', '1 W')

const DESIGNS: Readonly<Record<string, string>> = { orchard: ORCHARD, 'small pack': SMALL_PACK }

/** `name` is that of a file of examples/ or of `DESIGNS`; what stands first in the patch is replaced by the other. */
export function outpostOf(name: string, [from, to]: readonly [string, string] = ['', '']): Outpost {
  const text = DESIGNS[name] ?? readFileSync(`examples/${name}`, 'utf8')
  if (!text.includes(from)) throw new Error(`${name} does not say ${from}`)
  const read = readOutpost(text.replace(from, to))
  if (!read.ok) throw new Error(read.diagnostics.map(({ message }) => message).join('; '))
  return read.outpost
}

export const hasPanel = (outpost: Outpost) => outpost.supply.panel !== null
export const cutOf = ({ place }: Outpost) => yearCut(place.latitude_deg, place.climate.clearness)

export interface Size {
  readonly runs: number
  readonly years: number
  readonly seed?: number
}

export function full(outpost: Outpost, size: Size): Outlook {
  const cutDay = cutOf(outpost)
  const choices = { seed: SEED, ...size, stepsPerHour: 1, cutDay, calendarYear: CALENDAR_YEAR }
  const ensemble = ensembleOf(outpost, choices)
  const { scheduledReportsPerDay, budgetParts } = ensemble
  return summarise(chunkPlayer(ensemble)(0, size.runs), {
    title: '',
    seed: choices.seed,
    aims: outpost.aims,
    rechargeable: hasPanel(outpost),
    cutDay,
    scheduledReportsPerDay,
    budgetParts,
  })
}

export const begun = (outpost: Outpost, size: Size, memory = new WhatIfMemory()) =>
  whatIf(
    outpost,
    { seed: SEED, ...size, cutDay: cutOf(outpost), calendarYear: CALENDAR_YEAR, title: '' },
    memory,
  )

export function hasty(outpost: Outpost, size: Size, memory?: WhatIfMemory): Outlook {
  const playing = begun(outpost, size, memory)
  playing.play(Number.POSITIVE_INFINITY)
  return playing.outlook()
}
