/** Quantities of the supply as the pages write them. */
import { quantityShown } from '../look/shown.ts'

export const volts = (value: number): string => quantityShown(value, 'voltage', { digits: 3 })
export const amperes = (value: number): string => quantityShown(value, 'current', { digits: 3 })
export const watts = (value: number): string => quantityShown(value, 'power', { digits: 3 })
export const celsius = (value: number): string =>
  quantityShown(Math.round(value), 'temperature').replace('-', '−')

/** Voltages in hand are told in millivolts, to the millivolt. */
export const millivolts = (value: number): string => `${Math.round(1000 * value)} mV`
