/** The units in which each dimension is shown, smallest first, and from which size on each is used. */
import type { Dimension } from './dimension.ts'

export interface ShownUnit {
  readonly symbol: string
  /** Used from this value on, in base units; from one of the unit itself where null. */
  readonly from: number | null
  /** Used for whole numbers of it only (KiB). */
  readonly whole: boolean
}

const show = (symbol: string, from: number | null = null): ShownUnit => ({ symbol, from, whole: false })
const whole = (symbol: string): ShownUnit => ({ symbol, from: null, whole: true })
const all = (...symbols: string[]): ShownUnit[] => symbols.map((symbol) => show(symbol))

/** Charges go over to ampere-hours at 1 mAh and energies to watt-hours at 1 Wh: wakes are told in C and J, cells in Ah. */
export const SHOWN_UNITS: Readonly<Record<Dimension, readonly ShownUnit[]>> = {
  current: all('pA', 'nA', 'µA', 'mA', 'A'),
  voltage: all('nV', 'µV', 'mV', 'V', 'kV'),
  power: all('pW', 'nW', 'µW', 'mW', 'W', 'kW', 'MW'),
  resistance: all('µΩ', 'mΩ', 'Ω', 'kΩ', 'MΩ', 'GΩ'),
  capacitance: all('pF', 'nF', 'µF', 'mF', 'F'),
  charge: all('pC', 'nC', 'µC', 'mC', 'C', 'mAh', 'Ah'),
  energy: all('pJ', 'nJ', 'µJ', 'mJ', 'J', 'Wh', 'kWh'),
  duration: all('ns', 'µs', 'ms', 's', 'min', 'h', 'd', 'years'),
  temperature: all('°C'),
  temperatureDifference: all('K'),
  ratio: [show('ppm'), show('%', 1e-4), show('', 10)],
  frequency: all('mHz', 'Hz', 'kHz', 'MHz', 'GHz'),
  dataSize: [show('B'), show('kB'), whole('KiB'), show('MB'), whole('MiB'), show('GB'), whole('GiB')],
  irradiance: all('W/m²'),
  dailyIrradiation: all('kWh/m²/d'),
  length: all('nm', 'µm', 'mm', 'm', 'km'),
  angle: all('°'),
  rate: all('per year', 'per day', 'per hour', 'per minute', 'per second'),
  mass: all('µg', 'mg', 'g', 'kg'),
  ratioPerKelvin: [show('ppm/K'), show('%/K', 1e-4)],
  voltagePerKelvin: all('µV/K', 'mV/K', 'V/K'),
  count: all(''),
}

/** The usual units of a dimension by name, largest first as people list them. */
export const shownUnits = (dimension: Dimension): string[] =>
  SHOWN_UNITS[dimension].map(({ symbol }) => symbol || 'a plain number').reverse()
