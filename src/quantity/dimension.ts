/** The kinds of quantity that the trade writes down, and how to speak of each. */

export type Dimension =
  | 'current'
  | 'voltage'
  | 'power'
  | 'resistance'
  | 'capacitance'
  | 'charge'
  | 'energy'
  | 'duration'
  | 'temperature'
  | 'temperatureDifference'
  | 'ratio'
  | 'frequency'
  | 'dataSize'
  | 'irradiance'
  | 'dailyIrradiation'
  | 'length'
  | 'angle'
  | 'rate'
  | 'mass'
  | 'ratioPerKelvin'
  | 'voltagePerKelvin'
  | 'count'

/** With its article, for sentences; and a text that parses, for "as in …". */
export const DIMENSIONS: Readonly<Record<Dimension, { readonly noun: string; readonly example: string }>> = {
  current: { noun: 'a current', example: '20 mA' },
  voltage: { noun: 'a voltage', example: '3.3 V' },
  power: { noun: 'a power', example: '250 mW' },
  resistance: { noun: 'a resistance', example: '4.7 kΩ' },
  capacitance: { noun: 'a capacitance', example: '470 µF' },
  charge: { noun: 'a charge', example: '500 mAh' },
  energy: { noun: 'an energy', example: '2 Wh' },
  duration: { noun: 'a duration', example: '5 min' },
  temperature: { noun: 'a temperature', example: '-10 °C' },
  temperatureDifference: { noun: 'a temperature difference', example: '15 K' },
  ratio: { noun: 'a ratio', example: '90 %' },
  frequency: { noun: 'a frequency', example: '32.768 kHz' },
  dataSize: { noun: 'an amount of data', example: '4 KiB' },
  irradiance: { noun: 'an irradiance', example: '1000 W/m²' },
  dailyIrradiation: { noun: 'a daily irradiation', example: '2.5 kWh/m²/d' },
  length: { noun: 'a length', example: '12 m' },
  angle: { noun: 'an angle', example: '35°' },
  rate: { noun: 'a rate', example: '6 per day' },
  mass: { noun: 'a mass', example: '250 g' },
  ratioPerKelvin: { noun: 'a relative change per kelvin', example: '-0.3 %/K' },
  voltagePerKelvin: { noun: 'a voltage per kelvin', example: '-2 mV/K' },
  count: { noun: 'a plain number', example: '6' },
}
