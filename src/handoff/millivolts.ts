/** Thresholds for a voltmeter that reads whole millivolts, so that it decides as the simulation does at that reading. */
import { NOISE_V } from '../wake/cadence.ts'

const NOISE_mV = 1000 * NOISE_V

/** A whole reading lies below this exactly where it lies below `voltage_V`. */
export const atLeast_mV = (voltage_V: number): number => Math.ceil(1000 * voltage_V - NOISE_mV)

/** A whole reading lies above this exactly where it lies above `voltage_V`. */
export const atMost_mV = (voltage_V: number): number => Math.floor(1000 * voltage_V + NOISE_mV)
