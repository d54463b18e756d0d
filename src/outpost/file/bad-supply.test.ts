/** Slips in supply and place. */
import { describeSlips, type Slip } from './slips.contract.ts'
import { SOLAR } from './solar-outpost.contract.ts'

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

const SUPPLY_SLIPS: readonly Slip[] = [
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
  ['panel-tolerance-unused', 'panel: { open circuit: 7 V', '¦panel: { open circuit: 7 V ± 0.2 V', 'warning'],
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
  [
    'colder-than-model',
    'temperature: 1 1 3 6 10 13 15 15 12 9 5 2 °C',
    'temperature: -36 -34 -25 -9 4 14 17 13 4 -8 -25 -34 °C',
    'warning',
    'type: ¦Li-ion',
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
  [
    'colder-than-model',
    'place: Bergen',
    'place: { latitude: 62, longitude: 130, zone: UTC+9, weather: { sunshine: 1 3 6 8 8 9 9 7 5 3 2 1 h, temperature: -39 -34 -20 -5 7 16 19 15 6 -8 -28 -38 °C } }',
    'warning',
    'cell: ¦LR6',
  ],
  [
    'lead-acid-freezes',
    'cell: LR6\n  regulator: none\n  brownout: 0.9 V\nplace: Bergen',
    'cell: { type: ¦VRLA, capacity: 7 Ah }\n  brownout: 1.8 V\nplace: Tromso',
    'warning',
  ],
  ['leakage-assumed-large', '  brownout', '  ¦capacitor: { capacitance: 20 F }\n  brownout', 'warning'],
  ['unknown-place', 'place: Bergen', 'place: ¦Bergn'],
  ['weather-missing', 'place: Bergen', '¦place: { latitude: 60, longitude: 5 }'],
  ['yaml-missing-char', 'place: Bergen\n', 'place: "Bergen\n¦'],
]

describeSlips('a supply with a panel', SOLAR, SUPPLY_SLIPS)
describeSlips('a primary cell', PRIMARY, PRIMARY_SLIPS)
