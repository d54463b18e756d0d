/** How a recording is to be read where it does not say so itself: options of every command that reads one. */
import { type Command, InvalidArgumentError } from 'commander'
import { parseQuantity } from '../quantity/parse-quantity.ts'
import { headerUnit } from '../recording/header-units.ts'
import { UnclearSource, type Wanted } from '../recording/unclear-source.ts'
import type { OpenChoices } from '../workbench/read-recording.ts'
import { Refusal } from '../workbench/refusal.ts'
import { quantity } from './quantity-option.ts'

type ReadChoices = OpenChoices['read']
/** What `--column` or `--unit` said, again for each. */
type Said = Pick<ReadChoices, 'time' | 'current' | 'voltage' | 'timeUnit' | 'currentUnit' | 'voltageUnit'>

export interface SourceOptions {
  readonly rate?: number
  readonly column?: Said
  readonly unit?: Said
  readonly scale?: number
}

export const SOURCE_OPTIONS = ['rate', 'column', 'unit', 'scale'] as const

/** `of` stands before each description: "of two recordings: ". */
export function addSourceOptions(command: Command, of = ''): Command {
  return command
    .option(
      '--rate <frequency>',
      `${of}samples a second, where no column says when: "1 kHz", or a number in Hz`,
      rate,
    )
    .option(
      '--column <what=which>',
      `${of}which column is time, current or voltage, by place from 1 or by name: "current=3"; again for each`,
      column,
    )
    .option('--unit <unit>', `${of}unit of a column, before its header: mA, or ms; again for each`, unit)
    .option(
      '--scale <current>',
      `${of}current that a count stands for, where the numbers are counts: "0.5 uA"`,
      quantity('current', 1e-18, 1e3, 'a current above zero'),
    )
}

export function readChoices({ rate, column, unit, scale }: SourceOptions): ReadChoices {
  return {
    ...(rate === undefined ? {} : { rate_Hz: rate }),
    ...column,
    ...unit,
    ...(scale === undefined ? {} : { scale_A: scale }),
  }
}

/** `1 kHz`, or a bare number of hertz. */
export function rate(text: string): number {
  const bare = Number(text)
  const read = parseQuantity(Number.isFinite(bare) ? `${text} Hz` : text, 'frequency')
  if (read.ok && read.value > 0) return read.value
  throw new InvalidArgumentError('a sampling rate above 0 Hz is wanted.')
}

function column(text: string, before: Said = {}): Said {
  const [, what, which = ''] = /^\s*(time|current|voltage)\s*=\s*(.*?)\s*$/.exec(text) ?? []
  if (what === undefined || which === '')
    throw new InvalidArgumentError('time, current or voltage and its column are wanted, as "current=3".')
  return { ...before, [what]: /^\d+$/.test(which) ? Number(which) : which }
}

function unit(text: string, before: Said = {}): Said {
  const dimension = headerUnit(text)?.dimension
  if (dimension === undefined)
    throw new InvalidArgumentError('a unit of current, voltage or time is wanted, as mA, V or ms.')
  return { ...before, [`${dimension}Unit`]: text.trim() }
}

const SAID_BY: Record<Wanted, string> = {
  'current column': '--column current=2',
  'time column': '--column time=1',
  unit: '--unit mA',
  scale: '--scale "0.5 uA"',
}

/** A Refusal of a source that leaves something open, with the options that would settle it. */
export function withOptions(error: unknown): unknown {
  if (!(error instanceof Refusal && error.cause instanceof UnclearSource)) return error
  const options = error.cause.wanted.map((each) => SAID_BY[each]).join(' and ')
  return new Refusal(`${error.message} Or say it here, as with ${options}.`, error.exitCode)
}
