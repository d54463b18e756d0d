/** Slips in YAML, shape, numbers, wake and cadence. */
import { describeSlips, type Slip } from './slips.contract.ts'
import { SOLAR } from './solar-outpost.contract.ts'

const DEVICE_SLIPS: readonly Slip[] = [
  // YAML itself
  ['yaml-duplicate-key', 'rest: 20 µA', 'rest: 20 µA\n¦rest: 30 µA'],
  ['yaml-tab-as-indent', '  rate: 10 min', '¦\trate: 10 min'],
  ['yaml-multiple-docs', 'aims:', '¦---\naims:'],
  ['yaml-unexpected-token', 'lasts: 2 s }', 'lasts: 2 s ¦[1 s, 3 s] }'],
  ['yaml-alias', 'aims:', 'aims: ¦*usual\nrest of it:'],
  ['yaml-alias', 'aims:', 'variants: &v\n  x: ¦*v\naims:'],
  ['yaml-alias', 'aims:', 'variants: { x: &w { wake: { steps: [&s { name: a }, { name: ¦*w }] } } }\naims:'],
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

describeSlips('a device', SOLAR, DEVICE_SLIPS)
