/** The commands and their options. What a command does is loaded only when it runs, so that `--help` is quick. */
import { Command, InvalidArgumentError, Option } from 'commander'
import { CELLS, PANELS } from '../quantity/parse-quantities.ts'
import { addMeasuredCommands } from './measured-commands.ts'
import { durations, quantities, quantity } from './quantity-option.ts'
import { addReadCommand } from './recording-commands.ts'
import { addServeCommand } from './serve-options.ts'
import { addSourceOptions } from './source-options.ts'

const WEATHER = [
  '--weather <file>',
  'a weather year (EPW, TMY3, hourly CSV) instead of the one in the file',
] as const

export function program(): Command {
  const root = new Command('overwinter')
    .description('Will a duty-cycled battery device left outside live, on which cell, panel and schedule?')
    .version('0.1.0', '-v, --version')
    .exitOverride()
    .showHelpAfterError('(overwinter --help lists the commands)')

  addServeCommand(root)

  root
    .command('forecast')
    .argument('<file>', 'an outpost file (*.outpost.yaml)')
    .description('simulate years of it: verdict, where the charge goes, what kills it')
    .option('--years <n>', 'years in each run', wholeNumber(1, 60))
    .option('--runs <n>', 'how many runs', wholeNumber(1, 1_000_000))
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--threads <n>', 'worker threads (default: one a processor)', wholeNumber(1, 256))
    .option(...WEATHER)
    .option('--steps <n>', 'steps in an hour: 1 or 6', oneOf(1, 6), 1)
    .option('--variant <name>', 'forecast this variant of the file')
    .option('--json', 'print the whole result as JSON')
    .option('--html <file>', 'write a one-file report')
    .option('--svg <folder>', 'write each figure as an SVG file')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter forecast examples/fjord-tide-hut.outpost.yaml --html report.html',
    )
    .action(async (file, options) => (await import('./forecast-command.ts')).forecastCommand(file, options))

  root
    .command('matters')
    .argument('<file>', 'an outpost file (*.outpost.yaml)')
    .description('which numbers to measure better, and which parts to mend first')
    .option(
      '--years <n>',
      'follow lives for so long; with a panel, judge the winter of that year',
      wholeNumber(1, 60),
    )
    .option('--rows <n>', 'rows of the sample, by choice a power of two', wholeNumber(8, 65_536))
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--threads <n>', 'worker threads (default: one a processor)', wholeNumber(1, 256))
    .option(...WEATHER)
    .option('--variant <name>', 'judge this variant of the file')
    .option('--json', 'print the whole result as JSON')
    .addHelpText('after', '\nExample:\n  overwinter matters examples/river-ford.outpost.yaml')
    .action(async (file, options) => (await import('./matters-command.ts')).mattersCommand(file, options))

  root
    .command('thrift')
    .argument('<file>', 'an outpost file (*.outpost.yaml) with a panel')
    .description('intervals by battery voltage that report most and still survive')
    .option(
      '--intervals <list>',
      'allowed intervals: "15 min, 1 h, 6 h" (default: that of the file and usual longer ones)',
      durations,
    )
    .option('--rows <n>', 'at most so many rows of voltages', wholeNumber(1, 8), 3)
    .option(
      '--hysteresis <voltage>',
      'a row is left so far above its voltage',
      quantity('voltage', 0.001, 1, '1 mV to 1 V'),
      0.05,
    )
    .option(
      '--resolution <voltage>',
      'steps in which the firmware reads the battery',
      quantity('voltage', 0.0001, 0.5, '0.1 mV to 0.5 V'),
      0.005,
    )
    .option(
      '--offset <voltage>',
      'what the reading may be out by, ± (95 %)',
      quantity('voltage', 0, 1, '0 V to 1 V'),
      0.02,
    )
    .option(
      '--survive <share>',
      'winters to survive, "95 %" (default: the aim of the file)',
      quantity('ratio', 0.5, 0.995, '50 % to 99.5 %'),
    )
    .option('--runs <n>', 'devices on which tables are tried', wholeNumber(8, 100_000))
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--threads <n>', 'worker threads (default: one a processor)', wholeNumber(1, 256))
    .option(...WEATHER)
    .option('--variant <name>', 'judge this variant of the file')
    .option('--json', 'print the whole result as JSON')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter thrift examples/fjord-tide-hut.outpost.yaml --intervals "15 min, 1 h, 6 h"',
    )
    .action(async (file, options) => (await import('./thrift-command.ts')).thriftCommand(file, options))

  addReadCommand(root)

  root
    .command('new')
    .argument('[file]', 'where to write it', 'new.outpost.yaml')
    .description('write an outpost file from five numbers; asks for those not given')
    .option('--cell <cell>', 'IEC designation, or chemistry and capacity: "LR6", "Li-ion 2000 mAh"')
    .option('--every <time>', 'how often it wakes: "10 min"')
    .option('--awake <time>', 'how long a wake lasts: "4 s"')
    .option('--draws <current>', 'what it draws awake: "25 mA ± 10 %"')
    .option('--rests <current>', 'what it draws between wakes: "20 µA"')
    .option('--place <place>', 'a built-in place')
    .option('--panel <panel>', 'a panel by its best point: "1 W at 6 V"')
    .option('--title <text>', 'what it is')
    .option('--json', 'print what was written as JSON')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter new gauge.outpost.yaml --cell LR6 --every "10 min" --awake "4 s" --draws "25 mA" --rests "20 µA"',
    )
    .action(async (file, options) => (await import('./new-command.ts')).newCommand(file, options))

  root
    .command('handoff')
    .argument('<file>', 'an outpost file (*.outpost.yaml)')
    .description('write what its firmware needs: intervals, latch, alarm and budget in C; what to shut down')
    .option('--out <folder>', 'where to write header, source, JSON and checklist', '.')
    .option('--prefix <name>', 'what the names in C, and of the files, begin with', 'outpost')
    .option('--bcd', 'times as two decimal digits in a byte, as in the registers of many clocks')
    .addOption(
      new Option('--clock <time>', 'which time the clock keeps').choices(['local', 'utc']).default('local'),
    )
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--variant <name>', 'hand over this variant of the file')
    .option('--json', 'print the tables and the checklist as JSON')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter handoff examples/fjord-tide-hut.outpost.yaml --out firmware --prefix tide --bcd',
    )
    .action(async (file, options) => (await import('./handoff-command.ts')).handoffCommand(file, options))

  addSourceOptions(root.command('compare'), 'of two recordings: ')
    .argument('<file>', 'an outpost file with variants, or a recording')
    .argument('[after]', 'a second recording')
    .description(
      "an outpost's variants through the same weather: survival, life, break-even rests; or what changed between two recordings",
    )
    .option('--file <outpost>', 'of two recordings: what the change does to this outpost')
    .option('--instrument <file>', 'of two recordings: what measured both')
    .option('--years <n>', 'years in each run', wholeNumber(1, 60))
    .option('--weather <file>', `of variants: ${WEATHER[1]}`)
    .option('--runs <n>', 'how many runs of each', wholeNumber(2, 100_000))
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--threads <n>', 'worker threads (default: one a processor)', wholeNumber(1, 256))
    .option('--json', 'print the whole result as JSON')
    .option('--html <file>', 'write a one-file report')
    .option('--svg <folder>', 'write each figure as an SVG file')
    .addHelpText(
      'after',
      '\nExamples:\n  overwinter compare examples/windbreak-sleep.outpost.yaml\n  overwinter compare last-week.csv today.csv --file gauge.outpost.yaml',
    )
    .action(async (file, after, options) =>
      (await import('./compare-command.ts')).compareCommand(file, after, options),
    )

  root
    .command('size')
    .argument('<file>', 'an outpost file (*.outpost.yaml)')
    .description('smallest cell, smallest panel, shortest interval, and the frontier of all three')
    .option(
      '--survive <share>',
      'share of winters, or of lives, wanted (default: the aim of the file)',
      quantity('ratio', 0.5, 0.995, '50 % to 99.5 %'),
    )
    .option('--years <n>', 'years in each run', wholeNumber(1, 60))
    .option(
      '--cells <list>',
      'cells on the frontier, the capacity of one: "400 mAh, 600 mAh, 1 Ah" (default: around that of the file)',
      quantities('charge', CELLS),
    )
    .option(
      '--panels <list>',
      'panels on the frontier, by their best power: "0.5 W, 1 W"',
      quantities('power', PANELS),
    )
    .option('--intervals <list>', 'intervals on the frontier: "5 min, 15 min, 1 h"', durations)
    .option('--runs <n>', 'the most runs of one design', wholeNumber(1, 100_000))
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--threads <n>', 'worker threads (default: one a processor)', wholeNumber(1, 256))
    .option(...WEATHER)
    .option('--variant <name>', 'size this variant of the file')
    .option('--parts <file>', 'also choose among these parts (parts.yaml)')
    .option('--objective <column>', 'what to have least of: a column of the parts list', 'price')
    .option('--json', 'print the whole result as JSON')
    .option('--html <file>', 'write a one-file report')
    .option('--svg <folder>', 'write each figure as an SVG file')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter size examples/fjord-tide-hut.outpost.yaml --parts examples/parts.yaml',
    )
    .action(async (file, options) => (await import('./size-command.ts')).sizeCommand(file, options))

  addMeasuredCommands(root)
  return root
}

function oneOf(...values: number[]): (text: string) => number {
  return (text) => {
    if (values.includes(Number(text))) return Number(text)
    throw new InvalidArgumentError(`one of ${values.join(', ')} is wanted.`)
  }
}

function wholeNumber(low: number, high: number): (text: string) => number {
  return (text) => {
    const value = Number(text)
    if (!Number.isSafeInteger(value) || value < low || value > high)
      throw new InvalidArgumentError(`a whole number from ${low} to ${high} is wanted.`)
    return value
  }
}
