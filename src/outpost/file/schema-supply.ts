/** What feeds the device, as the file says it: `supply` with cell, regulator, capacitor, brown-out, charger, panel. */
import { z } from 'zod'
import { pair, quantity } from './quantity-field.ts'

const voltage = (description: string, example: string) =>
  quantity('voltage', { description, examples: [example] }, { positive: true })

const smallVoltage = (description: string, example: string) =>
  quantity('voltage', { description, examples: [example] }, { low: 0 })

const current = (description: string, example: string) =>
  quantity('current', { description, examples: [example] }, { low: 0 })

const count = (description: string, most: number) =>
  z
    .number()
    .int()
    .min(1)
    .max(most)
    .meta({ description, examples: [2] })

const kind = <const K extends readonly [string, ...string[]]>(...kinds: K) =>
  z.enum(kinds).meta({ description: 'Which kind it is.', examples: [kinds[0]] })

const cellDetails = z.strictObject({
  type: z
    .string()
    .min(1)
    .meta({
      description: 'IEC designation, or a chemistry that comes in any size.',
      examples: ['LR6', 'CR2032', 'ER14505', 'Li-ion', 'LiFePO4', 'VRLA', 'supercapacitor'],
    }),
  capacity: quantity(
    'charge',
    { description: 'Capacity of one cell when new.', examples: ['2000 mAh ± 5 %'] },
    { positive: true },
  ).optional(),
  capacitance: quantity(
    'capacitance',
    { description: 'Of one supercapacitor, instead of a capacity.', examples: ['25 F ± 10 %'] },
    { positive: true },
  ).optional(),
  series: count('Cells in series.', 100).optional(),
  parallel: count('Strings in parallel.', 1000).optional(),
  charged: quantity(
    'ratio',
    { description: 'State of charge when it is put out.', examples: ['90 % ± 5 %'] },
    { low: 0, high: 1 },
  ).optional(),
  age: quantity(
    'duration',
    { description: 'Age when it is put out.', examples: ['0.5 years'] },
    { low: 0 },
  ).optional(),
})

const cellType = z
  .string()
  .min(1)
  .transform((type): z.output<typeof cellDetails> => ({ type }))

const cell = z.union([cellType, cellDetails]).meta({
  title: 'Cell',
  description: 'The cell: its type alone, or a mapping with type, capacity, series, parallel, charged, age.',
  examples: ['LR6', { type: 'Li-ion', capacity: '2000 mAh' }],
})

const output = voltage('Output voltage.', '3.3 V')
const dropOut = smallVoltage('How far the input must stay above the output.', '150 mV').optional()
const quiescent = current('What it takes for itself.', '4 µA')
const efficiency = z
  .union([
    quantity(
      'ratio',
      { description: 'Efficiency at any current.', examples: ['85 %'] },
      { positive: true, high: 1 },
    ),
    z.record(
      z.string(),
      quantity(
        'ratio',
        { description: 'Efficiency at this output current.', examples: ['85 %'] },
        { positive: true, high: 1 },
      ),
    ),
  ])
  .meta({
    description: 'Efficiency: one number, or a mapping from output current to efficiency.',
    examples: [{ '10 µA': '60 %', '1 mA': '84 %', '100 mA': '90 %' }],
  })

const regulator = z
  .union([
    z.literal('none'),
    z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('linear'), output, 'drop-out': dropOut, quiescent }),
      z.strictObject({
        kind: z.literal('buck'),
        output,
        'drop-out': dropOut,
        minimum: smallVoltage('Lowest input at which it still works.', '2 V').optional(),
        quiescent,
        efficiency,
      }),
      z.strictObject({
        kind: kind('boost', 'buck-boost'),
        output,
        'drop-out': dropOut,
        minimum: smallVoltage('Lowest input at which it still works.', '0.9 V'),
        quiescent,
        efficiency,
      }),
    ]),
  ])
  .meta({
    title: 'Regulator',
    description:
      'Between battery and device: none, or a mapping whose kind is linear, buck, boost or buck-boost.',
    examples: ['none', { kind: 'linear', output: '3.0 V', 'drop-out': '150 mV', quiescent: '1.5 µA' }],
  })

const capacitor = z
  .strictObject({
    capacitance: quantity(
      'capacitance',
      { description: 'Across the battery, ahead of the regulator.', examples: ['470 µF ± 20 %'] },
      { positive: true },
    ),
    ESR: quantity(
      'resistance',
      { description: 'Equivalent series resistance.', examples: ['0.1 Ω'] },
      { low: 0 },
    ).optional(),
    leakage: current('Leakage current.', '2 µA').optional(),
    rating: voltage('Highest voltage it bears.', '6.3 V').optional(),
  })
  .meta({
    title: 'Capacitor',
    description: 'The capacitor that carries bursts.',
    examples: [{ capacitance: '470 µF ± 20 %', ESR: '0.1 Ω', leakage: '2 µA' }],
  })

const full = voltage('Voltage at which it holds the whole pack.', '4.2 V').optional()
const limit = quantity(
  'current',
  { description: 'Largest charging current.', examples: ['100 mA'] },
  { positive: true },
).optional()
const chargerQuiescent = current('What it takes from the cell while there is no light.', '3 µA').optional()
const coldLockOut = z
  .union([
    z.literal('none'),
    quantity('temperature', {
      description: 'No charging while the cell is colder than this.',
      examples: ['0 °C'],
    }),
  ])
  .meta({
    description: 'No charging while the cell is colder than this; none where nothing prevents it.',
    examples: ['0 °C', 'none'],
  })
  .optional()

const charger = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('diode'),
      drop: smallVoltage('Forward drop of the diode.', '0.3 V').optional(),
      quiescent: chargerQuiescent,
      full,
      'cold lock-out': coldLockOut,
    }),
    z.strictObject({
      kind: z.literal('linear'),
      'drop-out': smallVoltage('Least voltage between panel and cell.', '150 mV').optional(),
      limit,
      quiescent: chargerQuiescent,
      full,
      'cold lock-out': coldLockOut,
      'highest input': voltage('Highest panel voltage it bears.', '7 V').optional(),
    }),
    z.strictObject({
      kind: z.literal('maximum-power'),
      efficiency: quantity(
        'ratio',
        { description: 'Power out over power in.', examples: ['85 % ± 5 %'] },
        { positive: true, high: 1 },
      ).optional(),
      limit,
      quiescent: chargerQuiescent,
      full,
      'cold lock-out': coldLockOut,
      'highest input': voltage('Highest panel voltage it bears.', '18 V').optional(),
    }),
  ])
  .meta({
    title: 'Charger',
    description: 'From panel to cell: a mapping whose kind is diode, linear or maximum-power.',
    examples: [{ kind: 'linear', limit: '100 mA', quiescent: '3 µA' }],
  })

const panel = z
  .strictObject({
    rated: pair('power', 'at', 'voltage', {
      description: 'Power and voltage at the best point, where that is all that is known.',
      examples: ['1 W at 6 V'],
    }).optional(),
    'open circuit': voltage('Open-circuit voltage.', '7.2 V').optional(),
    'short circuit': quantity(
      'current',
      { description: 'Short-circuit current.', examples: ['180 mA'] },
      { positive: true },
    ).optional(),
    'maximum power': pair('voltage', 'at', 'current', {
      description: 'Voltage and current at the best point.',
      examples: ['6 V at 165 mA'],
    }).optional(),
    technology: kind('crystalline', 'amorphous').optional(),
    cells: count('Solar cells in series.', 1000).optional(),
    rise: quantity(
      'temperatureDifference',
      { description: 'How much warmer than the air its cells get at 800 W/m².', examples: ['25 K'] },
      { low: 0 },
    ).optional(),
  })
  .meta({
    title: 'Panel',
    description: 'The solar panel by its data sheet at 1000 W/m² and 25 °C.',
    examples: [
      { rated: '1 W at 6 V' },
      { 'open circuit': '7.2 V', 'short circuit': '180 mA', 'maximum power': '6 V at 165 mA' },
    ],
  })

export const supplySection = z
  .strictObject({
    cell,
    regulator: regulator.optional(),
    capacitor: capacitor.optional(),
    brownout: voltage('The device stops when its rail falls below this.', '2.4 V'),
    'restart above': voltage(
      'After a brown-out it starts again only when the battery is back above this.',
      '3.0 V',
    ).optional(),
    charger: charger.optional(),
    panel: panel.optional(),
  })
  .meta({ title: 'Supply', description: 'What feeds the device.', examples: [] })
