/** The commands and their options. What a command does is loaded only when it runs, so that `--help` is quick. */
import { Command, InvalidArgumentError } from 'commander'

export function program(): Command {
  const root = new Command('overwinter')
    .description('Will a duty-cycled battery device left outside live, on which cell, panel and schedule?')
    .version('0.1.0', '-v, --version')
    .exitOverride()
    .showHelpAfterError('(overwinter --help lists the commands)')

  root
    .command('forecast')
    .argument('<file>', 'an outpost file (*.outpost.yaml)')
    .description('simulate years of it: verdict, where the charge goes, what kills it')
    .option('--years <n>', 'years in each run', wholeNumber(1, 60))
    .option('--runs <n>', 'how many runs', wholeNumber(1, 1_000_000))
    .option('--seed <n>', 'seed of the random streams', wholeNumber(0, Number.MAX_SAFE_INTEGER), 1)
    .option('--threads <n>', 'worker threads (default: one a processor)', wholeNumber(1, 256))
    .option('--weather <file>', 'a weather year (EPW, TMY3, hourly CSV) instead of the one in the file')
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
