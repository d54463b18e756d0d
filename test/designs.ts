/** Designs for tests, small and plain; every number is an ordinary one for its class, from memory. */
import type { Outpost } from '../src/outpost/outpost.ts'
import { cellOf } from '../src/supply/cell-catalogue.ts'
import type { Step } from '../src/wake/wake.ts'

export const step = (over: Partial<Step<number>> = {}): Step<number> => ({
  name: 'send',
  duration_s: 4,
  current_A: 0.08,
  peak: null,
  chance: 1,
  every: 1,
  retries: null,
  reports: 1,
  rail: null,
  note: null,
  ...over,
})

const climate = {
  clearness: [0.32, 0.36, 0.4, 0.45, 0.48, 0.47, 0.45, 0.44, 0.41, 0.36, 0.32, 0.3],
  temperature_C: [1, 1, 3, 6, 10, 13, 15, 15, 12, 9, 5, 2],
  dailyRange_K: [4, 5, 6, 7, 8, 8, 7, 7, 6, 5, 4, 4],
  floor: 0.05,
  persistence: 0.29,
  dailyDeviation_K: 3,
  temperaturePersistence: 0.7,
}

const AMPERE_HOUR_C = 3600

/** A lithium-ion cell of 2 Ah with a half-watt panel at 58° N. */
export const sunlit: Outpost<number> = {
  title: 'sunlit',
  wake: {
    steps: [step({ peak: { current_A: 0.3, duration_s: 0.01 } })],
    boot: [],
    cadence: { schedule: { kind: 'rest', rest_s: 600 }, events: null, thrift: [] },
    rest_A: 20e-6,
    standing: [{ name: 'divider', current_A: 4e-6, from: 'cell' }],
    resume: 'continue',
    keeps: [],
  },
  supply: {
    pack: {
      cell: cellOf('Li-ion', 2 * AMPERE_HOUR_C),
      series: 1,
      parallel: 1,
      capacity_C: 2 * AMPERE_HOUR_C,
      initial: 0.9,
      age_s: 0,
    },
    regulator: { kind: 'linear', output_V: 3, dropOut_V: 0.1, quiescent_A: 5e-6 },
    capacitor: null,
    brownout: { at_V: 2.7, restart_V: 3.5 },
    charger: { kind: 'linear', dropOut_V: 0.3, limit_A: 0.5, quiescent_A: 3e-6, full_V: 4.2 },
    panel: {
      openCircuit_V: 6.6,
      shortCircuit_A: 0.09,
      maximumPower_V: 5.5,
      maximumPower_A: 0.08,
      currentCoefficient_per_K: 0.0005,
      voltageCoefficient_per_K: -0.003,
      cellsInSeries: 11,
      rise_K: 25,
    },
  },
  place: {
    latitude_deg: 58,
    longitude_deg: 6,
    elevation_m: 10,
    zone_h: 1,
    tilt_deg: 60,
    azimuth_deg: 180,
    horizon: [],
    albedo: 0.2,
    soiling: 0.05,
    enclosureRise_K: 10,
    climate,
  },
  aims: { winters: 0.95, reportsPerDay: null, noBrownout: false, years: null },
}

/** An ideal cell of 500 mAh without panel, as the sum on the back of an envelope has it. */
export const envelope = (wake: Partial<Outpost<number>['wake']>): Outpost<number> => ({
  ...sunlit,
  title: 'envelope',
  wake: { ...sunlit.wake, standing: [], ...wake },
  supply: {
    ...sunlit.supply,
    pack: {
      cell: cellOf('ideal', 0.5 * AMPERE_HOUR_C),
      series: 1,
      parallel: 1,
      capacity_C: 0.5 * AMPERE_HOUR_C,
      initial: 1,
      age_s: 0,
    },
    regulator: { kind: 'none' },
    brownout: { at_V: 0.1, restart_V: 0.2 },
    charger: null,
    panel: null,
  },
})

/** A design as a file would give it: every number exact. */
export function exact(design: Outpost<number>): Outpost {
  const wrap = (node: unknown, key: string): unknown => {
    if (typeof node === 'number' && !PLAIN.test(key)) return { kind: 'exact', value: node }
    if (typeof node !== 'object' || node === null || key === 'cell' || key === 'climate' || key === 'aims')
      return node
    if (Array.isArray(node)) return node.map((item) => wrap(item, key))
    return Object.fromEntries(Object.entries(node).map(([k, v]) => [k, wrap(v, k)]))
  }
  return wrap(design, '') as Outpost
}

/** Numbers that a design holds as they are. */
const PLAIN =
  /^(times|every|reports|series|parallel|cellsInSeries|latitude_deg|longitude_deg|elevation_m|zone_h|interval_s|minutes|hour|minute|second|bytes|endurance|pageBytes|pages|elevation_deg)$/
