/** What a number measures. Base units are SI but for temperature (°C), angle (degrees) and daily irradiation (J/m²). */
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

/** As it stands in a sentence: "a current is wanted here". */
export const DIMENSION_NAMES: Readonly<Record<Dimension, string>> = {
  current: 'a current',
  voltage: 'a voltage',
  power: 'a power',
  resistance: 'a resistance',
  capacitance: 'a capacitance',
  charge: 'a charge',
  energy: 'an energy',
  duration: 'a time',
  temperature: 'a temperature',
  temperatureDifference: 'a temperature difference',
  ratio: 'a ratio',
  frequency: 'a frequency',
  dataSize: 'a data size',
  irradiance: 'an irradiance',
  dailyIrradiation: "a day's irradiation",
  length: 'a length',
  angle: 'an angle',
  rate: 'a rate',
  mass: 'a mass',
  ratioPerKelvin: 'a relative temperature coefficient',
  voltagePerKelvin: 'a voltage per kelvin',
  count: 'a plain number',
}
