/**
 * What measured a recording: ranges with resolution, accuracy, burden and bandwidth, as plain data. Someone else reads it
 * from a file. Current in A.
 */

export interface InstrumentRange {
  readonly name: string
  /** Largest magnitude that it shows; above zero. */
  readonly fullScale_A: number
  /** Step of the reading; zero where it is as good as continuous. */
  readonly digit_A: number
  /** Limits of error as the maker states them: ± (share of the reading + so many digits or + an offset). */
  readonly accuracyOfReading: number
  readonly accuracyDigits: number
  readonly accuracyOffset_A: number
  /** Resistance between the instrument's terminals, leads and fuse included. */
  readonly burden_Ohm: number
  /** −3 dB of the input; null when not known. */
  readonly bandwidth_Hz: number | null
}

export interface Instrument {
  readonly name: string
  /** By rising full scale. */
  readonly ranges: readonly InstrumentRange[]
  /** Whether a sample is the mean over its interval, or the value at an instant of it. */
  readonly sample: 'mean' | 'instant'
}

/** From this sample on the instrument was on this range. */
export interface RangeMark {
  readonly sample: number
  /** Index into the ranges. */
  readonly range: number
}

/** The instrument, checked: throws RangeError with place, value and what was expected. */
export function checkInstrument(instrument: Instrument): Instrument {
  const { name, ranges } = instrument
  if (ranges.length === 0) throw new RangeError(`instrument ${name}: it needs one range or more`)
  ranges.forEach((range, k) => {
    const where = `instrument ${name}, range ${range.name}`
    if (!(range.fullScale_A > 0))
      throw new RangeError(`${where}: full scale is above zero, not ${range.fullScale_A} A`)
    for (const field of [
      'digit_A',
      'accuracyOfReading',
      'accuracyDigits',
      'accuracyOffset_A',
      'burden_Ohm',
    ] as const)
      if (!(range[field] >= 0 && Number.isFinite(range[field])))
        throw new RangeError(`${where}: ${field} is zero or more, not ${range[field]}`)
    if (range.bandwidth_Hz !== null && !(range.bandwidth_Hz > 0))
      throw new RangeError(`${where}: bandwidth is above zero, not ${range.bandwidth_Hz} Hz`)
    if (k > 0 && !(range.fullScale_A > ranges[k - 1].fullScale_A))
      throw new RangeError(
        `${where}: ranges come by rising full scale, but ${ranges[k - 1].name} before it is no smaller`,
      )
  })
  return instrument
}

/** The smallest range that shows a current; null where it overloads them all. */
export function rangeFor(instrument: Instrument, current_A: number): InstrumentRange | null {
  return instrument.ranges.find(({ fullScale_A }) => Math.abs(current_A) <= fullScale_A) ?? null
}

/**
 * The range at a sample: as marked (marks by rising sample), or where nothing is marked the one that fits the current;
 * null where the current is beyond it.
 */
export function rangeAt(
  instrument: Instrument,
  marks: readonly RangeMark[],
  sample: number,
  current_A: number,
): InstrumentRange | null {
  const mark = marks.findLast((each) => each.sample <= sample)
  if (mark === undefined) return rangeFor(instrument, current_A)
  const range = instrument.ranges[mark.range]
  if (range === undefined)
    throw new RangeError(
      `instrument ${instrument.name} has no range ${mark.range}, marked at sample ${mark.sample}`,
    )
  return Math.abs(current_A) <= range.fullScale_A ? range : null
}
