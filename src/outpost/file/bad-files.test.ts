/** Bad files, one slip each: the code it is known by, and where it points. Prose is left free to improve. */
import { describe, expect, test } from 'vitest'
import type { Severity } from './diagnostic.ts'
import { readOutpost } from './read.ts'

const SOLAR = `overwinter: 1
title: Gauge on a weir
wake:
  steps:
    - name: sense
      for: 1 s
      draws: 8 mA
    - name: send
      for: 3 s
      draws: 40 mA
      peak: 90 mA for 10 ms
      retries: { probability: 5 %, times: 2, backoff: 5 s, lasts: 2 s }
      reports: 1
cadence:
  rate: 10 min
rest: 20 µA
standing:
  - { name: divider, draws: 2 µA, from: cell }
resume: continue
keeps:
  - { name: counter, size: 16 B, memory: flash, endurance: 10000, page: 4096 B, pages: 8 }
supply:
  cell: { type: Li-ion, capacity: 2000 mAh }
  regulator: { kind: linear, output: 3.0 V, drop-out: 150 mV, quiescent: 2 µA }
  capacitor: { capacitance: 220 µF, ESR: 0.1 Ω, leakage: 1 µA, rating: 6.3 V }
  brownout: 2.6 V
  restart above: 3.4 V
  charger: { kind: linear, drop-out: 150 mV, limit: 100 mA, quiescent: 2 µA, full: 4.2 V, cold lock-out: 0 °C, highest input: 12 V }
  panel: { open circuit: 7 V, short circuit: 90 mA, maximum power: 5.8 V at 82 mA }
place:
  latitude: 58.3
  longitude: 6.6
  elevation: 4 m
  zone: Europe/Oslo
  tilt: 70
  azimuth: 180
  horizon: { 90: 5, 180: 9 }
  soiling: 3 %
  weather:
    sunshine: 1.0 2.4 3.9 5.6 7.2 7.6 7.0 6.0 4.1 2.5 1.3 0.7 h
    temperature: 1 1 3 6 10 13 15 15 12 9 5 2 °C
    daily range: 4 5 6 7 7 7 6 6 6 5 4 4 K
aims:
  winters: 95 %
  reports per day: 100
  years: 5
`

const PRIMARY = `overwinter: 1
title: Stake in a bog
wake:
  steps:
    - { name: sense and send, for: 2 s, draws: 12 mA }
cadence: { rest: 15 min }
rest: 5 µA
supply:
  cell: LR6
  regulator: none
  brownout: 0.9 V
place: Bergen
`

/**
 * `to` replaces `from`. The sign ¦ shows where the diagnostic must point, and is taken out: in `to`, or in a text
 * `pointsAt` that stands elsewhere in the file.
 */
type Slip = readonly [code: string, from: string, to: string, severity?: Severity, pointsAt?: string]

const SOLAR_SLIPS: readonly Slip[] = [
  // YAML itself
  ['yaml-duplicate-key', 'rest: 20 µA', 'rest: 20 µA\n¦rest: 30 µA'],
  ['yaml-tab-as-indent', '  rate: 10 min', '¦\trate: 10 min'],
  ['yaml-multiple-docs', 'aims:', '¦---\naims:'],
  ['yaml-unexpected-token', 'lasts: 2 s }', 'lasts: 2 s ¦[1 s, 3 s] }'],
  // Shape
  ['unknown-key', '      draws: 8 mA', '      ¦drws: 8 mA'],
  ['unknown-key', 'aims:', '¦aim:'],
  ['unknown-key', 'drop-out: 150 mV, quiescent', '¦dropout: 150 mV, quiescent'],
  ['unknown-key', 'rest: 20 µA', 'rest: { is: 20 µA, ¦from: bench }'],
  ['missing-key', '      draws: 8 mA\n', '', 'error', '- ¦name: sense'],
  ['missing-key', 'overwinter: 1\n', '', 'error', '¦title:'],
  ['missing-key', ', quiescent: 2 µA }\n  cap', ' }\n  cap', 'error', '¦regulator:'],
  ['empty-value', '  brownout: 2.6 V', '  ¦brownout:'],
  ['empty-value', 'title: Gauge on a weir', 'title: ¦""'],
  ['wrong-type', 'rest: 20 µA', 'rest: ¦[20 µA]'],
  ['wrong-type', 'aims:\n  winters: 95 %\n  reports per day: 100\n  years: 5', 'aims: ¦5'],
  ['wrong-type', 'reports: 1', 'reports: ¦one'],
  ['not-whole', 'times: 2,', 'times: ¦1.5,'],
  ['unknown-value', 'overwinter: 1', 'overwinter: ¦7'],
  ['unknown-value', 'resume: continue', 'resume: ¦contine'],
  ['unknown-value', 'regulator: { kind: linear,', 'regulator: { kind: ¦liner,'],
  ['unknown-value', 'memory: flash', 'memory: ¦flahs'],
  // Numbers with units
  ['unit-missing', 'for: 1 s', 'for: ¦1'],
  ['unit-wrong-dimension', 'draws: 8 mA', 'draws: 8 ¦mAh'],
  ['unit-wrong-dimension', 'rate: 10 min', 'rate: 10 ¦m'],
  ['unit-wrong-dimension', 'peak: 90 mA for 10 ms', 'peak: 90 mA for 10 ¦mV'],
  ['unit-unknown', 'brownout: 2.6 V', 'brownout: 2.6 ¦volts?'],
  ['pair-incomplete', 'peak: 90 mA for 10 ms', 'peak: ¦90 mA'],
  ['out-of-range', 'draws: 8 mA', 'draws: ¦-8 mA'],
  ['out-of-range', 'latitude: 58.3', 'latitude: ¦98.3'],
  ['out-of-range', 'tilt: 70', 'tilt: ¦270'],
  ['out-of-range', 'soiling: 3 %', 'soiling: ¦100 %'],
  ['out-of-range', 'probability: 5 %', 'probability: ¦120 %'],
  ['wrong-count', 'temperature: 1 1 3', 'temperature: ¦1 3'],
  // Wake
  ['retries-never-succeed', 'probability: 5 %', 'probability: ¦1'],
  ['peak-longer-than-step', '90 mA for 10 ms', '¦90 mA for 10 s'],
  ['peak-below-mean', 'peak: 90 mA', 'peak: ¦9 mA'],
  ['duplicate-name', 'name: send', 'name: ¦sense'],
  ['work-overruns', 'rate: 10 min', 'rate: ¦4 s'],
  ['work-sometimes-overruns', 'rate: 10 min', 'rate: ¦8 s', 'warning'],
  [
    'lost-on-restart',
    'resume: continue\nkeeps:\n  - { name: counter, size: 16 B, memory: flash',
    'resume: restart\nkeeps:\n  - { name: counter, size: 16 B, memory: ¦ram',
  ],
  ['restart-without-boot', 'resume: continue', 'resume: ¦restart', 'warning'],
  ['boot-unused', 'wake:\n', 'wake:\n  ¦boot: [{ name: boot, for: 1 s, draws: 9 mA }]\n', 'warning'],
  ['does-not-fit', 'size: 16 B', 'size: ¦64 kB'],
  [
    'memory-worn-out',
    '- { name: counter, size: 16 B, memory: flash, endurance: 10000, page: 4096 B, pages: 8 }',
    '- ¦{ name: counter, size: 16 B, memory: eeprom, endurance: 10000 }',
    'warning',
  ],
  ['aim-out-of-reach', 'reports per day: 100', 'reports per day: ¦500'],
  // Cadence
  ['cadence-missing', 'cadence:\n  rate: 10 min', '¦cadence: {}'],
  ['cadence-ambiguous', '  rate: 10 min', '  rest: 5 min\n  ¦rate: 10 min'],
  [
    'thrift-order',
    '  rate: 10 min',
    '  rate: 10 min\n  thrift:\n    - { below: 3.5 V, interval: 1 h }\n    - { below: ¦3.6 V, interval: 2 h }',
  ],
  [
    'thrift-less-thrifty',
    '  rate: 10 min',
    '  rate: 10 min\n  thrift:\n    - { below: 3.7 V, interval: 1 h }\n    - { below: 3.6 V, interval: ¦20 min }',
    'warning',
  ],
  [
    'thrift-not-whole-minutes',
    '  rate: 10 min',
    '  clock minutes: 10\n  thrift:\n    - { below: 3.5 V, interval: ¦90 s }',
  ],
  [
    'thrift-without-interval',
    '  rate: 10 min',
    '  times of day: { at: ["06:00"] }\n  ¦thrift:\n    - { below: 3.5 V, interval: 1 h }',
  ],
  ['bad-time', 'rate: 10 min', 'times of day: { at: [¦"25:00"] }'],
  ['duplicate-time', 'rate: 10 min', 'times of day: { at: ["6:00", ¦"06:00"] }'],
  ['unknown-zone', 'rate: 10 min', 'times of day: { at: ["06:00"], zone: ¦Europe/Olso }'],
  ['work-overruns', '  rate: 10 min', '  times of day: ¦{ at: ["06:00", "06:00:03"] }'],
  // Supply
  ['unknown-cell', 'type: Li-ion', 'type: ¦Li-iron'],
  ['cell-needs-capacity', 'cell: { type: Li-ion, capacity: 2000 mAh }', '¦cell: { type: Li-ion }'],
  ['capacitance-not-capacity', 'capacity: 2000 mAh', 'capacitance: ¦25 F'],
  ['brownout-above-output', 'brownout: 2.6 V', 'brownout: ¦3.1 V'],
  [
    'brownout-above-cell',
    'kind: linear, output: 3.0 V, drop-out: 150 mV, quiescent: 2 µA }\n  capacitor: { capacitance: 220 µF, ESR: 0.1 Ω, leakage: 1 µA, rating: 6.3 V }\n  brownout: 2.6 V',
    'kind: linear, output: 5 V, drop-out: 150 mV, quiescent: 2 µA }\n  brownout: ¦4.4 V',
  ],
  ['restart-below-brownout', 'restart above: 3.4 V', 'restart above: ¦2.4 V'],
  ['restart-never-reached', 'restart above: 3.4 V', 'restart above: ¦4.3 V'],
  ['regulator-out-of-reach', 'output: 3.0 V', 'output: ¦5.0 V'],
  [
    'regulator-never-starts',
    '{ kind: linear, output: 3.0 V, drop-out: 150 mV,',
    '{ kind: boost, output: 5 V, minimum: ¦4.5 V, efficiency: 85 %,',
  ],
  [
    'boost-below-input',
    '{ kind: linear, output: 3.0 V, drop-out: 150 mV,',
    '{ kind: boost, output: ¦3.3 V, minimum: 1 V, efficiency: 85 %,',
    'warning',
  ],
  [
    'efficiency-current',
    '{ kind: linear,',
    '{ kind: buck, efficiency: { ¦fast: 80 %, 1 mA: 85 %, 10 mA: 90 % },',
  ],
  ['efficiency-points', '{ kind: linear,', '{ kind: buck, efficiency: ¦{ 1 mA: 80 % },'],
  ['efficiency-rises-too-fast', '{ kind: linear,', '{ kind: buck, efficiency: { 1 mA: 10 %, ¦2 mA: 90 % },'],
  ['capacitor-over-voltage', 'rating: 6.3 V', 'rating: ¦4 V'],
  ['overcharge', 'full: 4.2 V', 'full: ¦4.35 V'],
  ['never-half-full', 'full: 4.2 V', 'full: ¦3.6 V'],
  [
    'panel-without-charger',
    '  charger: { kind: linear, drop-out: 150 mV, limit: 100 mA, quiescent: 2 µA, full: 4.2 V, cold lock-out: 0 °C, highest input: 12 V }\n  panel',
    '  ¦panel',
  ],
  [
    'charger-without-panel',
    '  panel: { open circuit: 7 V, short circuit: 90 mA, maximum power: 5.8 V at 82 mA }\n',
    '',
    'error',
    '¦charger:',
  ],
  [
    'panel-incomplete',
    'panel: { open circuit: 7 V, short circuit: 90 mA,',
    '¦panel: { short circuit: 90 mA,',
  ],
  ['panel-said-twice', 'panel: {', 'panel: { ¦rated: 1 W at 6 V,'],
  ['panel-inconsistent', 'panel: { open circuit: 7 V', '¦panel: { open circuit: 5 V'],
  [
    'panel-never-charges',
    'open circuit: 7 V, short circuit: 90 mA, maximum power: 5.8 V',
    'open circuit: ¦3.5 V, short circuit: 90 mA, maximum power: 2.9 V',
  ],
  [
    'panel-voltage-low',
    'open circuit: 7 V, short circuit: 90 mA, maximum power: 5.8 V',
    'open circuit: 4.8 V, short circuit: 90 mA, maximum power: ¦4.0 V',
    'warning',
  ],
  ['panel-above-charger', 'highest input: 12 V', 'highest input: ¦7 V'],
  [
    'nothing-limits-charge',
    'charger: { kind: linear, drop-out: 150 mV, limit: 100 mA, quiescent: 2 µA, full: 4.2 V, cold lock-out: 0 °C, highest input: 12 V }',
    '¦charger: { kind: diode, cold lock-out: 0 °C }',
    'warning',
  ],
  ['charged-too-fast', 'capacity: 2000 mAh }', 'capacity: 100 mAh }', 'warning', 'limit: ¦100 mA'],
  ['cold-charging', 'cold lock-out: 0 °C', 'cold lock-out: ¦none', 'warning'],
  [
    'cold-charging',
    '  charger: { kind: linear, drop-out: 150 mV, limit: 100 mA, quiescent: 2 µA, full: 4.2 V, cold lock-out: 0 °C,',
    '  ¦charger: { kind: linear, drop-out: 150 mV, limit: 100 mA, quiescent: 2 µA, full: 4.2 V,',
    'warning',
  ],
  // Place
  ['unknown-zone', 'zone: Europe/Oslo', 'zone: ¦Europe/Olso'],
  ['zone-far-from-longitude', 'zone: Europe/Oslo', 'zone: ¦America/Denver', 'warning'],
  ['horizon-azimuth', 'horizon: { 90: 5', 'horizon: { ¦400: 5'],
  ['weather-impossible', 'sunshine: 1.0', 'sunshine: ¦12'],
  ['weather-ambiguous', '    sunshine:', '    place: Oslo\n    ¦sunshine:'],
  ['weather-file-missing', 'sunshine: 1.0 2.4 3.9 5.6 7.2 7.6 7.0 6.0 4.1 2.5 1.3 0.7 h', 'file: ¦none.epw'],
  [
    'weather-elsewhere',
    '    sunshine: 1.0 2.4 3.9 5.6 7.2 7.6 7.0 6.0 4.1 2.5 1.3 0.7 h',
    '    place: Athens',
    'warning',
    'latitude: ¦58.3',
  ],
  ['panel-faces-pole', 'azimuth: 180', 'azimuth: ¦0', 'warning'],
  ['panel-faces-down', 'tilt: 70', 'tilt: ¦120', 'warning'],
  ['missing-key', '  latitude: 58.3\n', '', 'error', '¦place:'],
  // Variants
  ['unknown-key', 'aims:', 'variants:\n  slow: { wake: { steps: { ¦sned: { every: 6 } } } }\naims:'],
  ['unknown-key', 'aims:', 'variants:\n  slow: { ¦wkae: { steps: { send: { every: 6 } } } }\naims:'],
  [
    'unit-wrong-dimension',
    'aims:',
    'variants:\n  slow: { wake: { steps: { send: { for: 3 ¦mA } } } }\naims:',
  ],
  ['brownout-above-output', 'aims:', 'variants:\n  late: { supply: { brownout: ¦3.1 V } }\naims:'],
  ['wrong-type', 'aims:', 'variants:\n  ¦slow: 4\naims:'],
]

const PRIMARY_SLIPS: readonly Slip[] = [
  ['primary-with-panel', '  brownout', '  ¦panel: { rated: 1 W at 6 V }\n  brownout'],
  ['primary-with-charger', '  brownout', '  ¦charger: { kind: linear }\n  brownout'],
  ['brownout-above-cell', 'brownout: 0.9 V', 'brownout: ¦1.8 V'],
  ['capacity-unusual', 'cell: LR6', 'cell: { type: LR6, capacity: ¦9000 mAh }', 'warning'],
  ['unknown-cell', 'cell: LR6', 'cell: ¦AA'],
  ['primary-in-parallel', 'cell: LR6', 'cell: { type: ER14505, parallel: ¦2 }', 'warning'],
  ['burst-heavy-for-cell', 'draws: 12 mA }', 'draws: 12 mA, peak: ¦1.4 A for 10 ms }', 'warning'],
  [
    'burst-heavy-for-cell',
    'draws: 12 mA }\ncadence: { rest: 15 min }\nrest: 5 µA\nsupply:\n  cell: LR6',
    'draws: ¦60 mA }\ncadence: { rest: 15 min }\nrest: 5 µA\nsupply:\n  cell: CR2032',
    'warning',
  ],
  ['unknown-place', 'place: Bergen', 'place: ¦Bergn'],
  ['weather-missing', 'place: Bergen', '¦place: { latitude: 60, longitude: 5 }'],
  ['yaml-missing-char', 'place: Bergen\n', 'place: "Bergen\n¦'],
]

const MARK = '¦'

function placeOf(text: string): string {
  const before = text.slice(0, text.indexOf(MARK)).split('\n')
  return `${before.length}:${before[before.length - 1].length + 1}`
}

function diagnosticsOf(text: string) {
  const result = readOutpost(text)
  return result.ok ? result.warnings : result.diagnostics
}

describe.each([
  ['a file with a panel', SOLAR, SOLAR_SLIPS],
  ['a file with a primary cell', PRIMARY, PRIMARY_SLIPS],
])('%s', (_, good, slips) => {
  test('reads without a word when nothing is wrong', () => {
    expect(diagnosticsOf(good)).toEqual([])
  })

  test.each(
    slips.map(([code, from, to, severity = 'error', pointsAt = '']) => ({
      code,
      from,
      to,
      severity,
      pointsAt,
    })),
  )('$code: $to$pointsAt', ({ code, from, to, severity, pointsAt }) => {
    expect(good).toContain(from)
    const changed = good.replace(from, to)
    const marked = pointsAt === '' ? changed : changed.replace(pointsAt.replace(MARK, ''), pointsAt)
    expect(marked).toContain(MARK)
    const found = diagnosticsOf(marked.replace(MARK, ''))
    const expected = found.find((each) => each.code === code && each.severity === severity)
    expect(expected, `found ${found.map((each) => each.code).join(', ') || 'nothing'}`).toBeDefined()
    expect(`${expected?.range.start.line}:${expected?.range.start.column}`).toBe(placeOf(marked))
    expect(expected?.expected).not.toBe('')
    expect(expected?.cure).not.toBe('')
  })
})
