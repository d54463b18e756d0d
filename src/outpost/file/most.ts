/**
 * Beyond these, in base units, a number is a slip of the unit or exponent and no part of a small device left outside;
 * far beyond, sums over years would leave what a computer can count. Our own choice, wide on purpose.
 */
import type { Dimension } from '../../quantity/dimension.ts'

const YEAR_s = 365.25 * 86_400

export const MOST: Partial<Record<Dimension, number>> = {
  current: 1000,
  voltage: 1000,
  power: 1e5,
  resistance: 1e12,
  capacitance: 1e5,
  /** 10 000 Ah. */
  charge: 3.6e7,
  duration: 100 * YEAR_s,
  temperature: 1000,
  temperatureDifference: 1000,
  /** 1 TB. */
  dataSize: 1e12,
  count: 1e6,
}
