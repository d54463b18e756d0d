/** The commands about recordings and their options; as in program.ts, what they do is loaded only when they run. */
import type { Command } from 'commander'
import { quantity } from './quantity-option.ts'
import { addSourceOptions } from './source-options.ts'

export function addReadCommand(root: Command): void {
  addSourceOptions(
    root
      .command('read')
      .argument('<recording>', 'measured current over time: CSV, .npy, raw float32 (.f32), each also as .gz')
      .description('states, cycles, charge and flaws of a recording'),
  )
    .option(
      '--voltage <voltage>',
      'constant supply: "3.3 V"',
      quantity('voltage', 0.1, 1000, '0.1 V to 1 kV'),
    )
    .option('--from <time>', 'read from here on: "12 s"', time)
    .option('--to <time>', 'read up to here', time)
    .option('--instrument <file>', 'what measured it: ranges, resolution, accuracy, burden')
    .option(
      '--range <change>',
      'from when on a range was set by hand: "2 min=400 mA"; again for each',
      collect,
      [],
    )
    .option('--strict', 'refuse a recording with any flaw')
    .option('--json', 'print the whole result as JSON')
    .option('--html <file>', 'write a one-file report')
    .option('--export <file>', 'write the samples as .csv, .npy or .parquet')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter read examples/recordings/snow-depth-build-41.csv.gz --html recording.html',
    )
    .action(async (file, options) => (await import('./read-command.ts')).readCommand(file, options))
}

const time = quantity('duration', 0, 100 * 365 * 86_400, 'a time from the start of the recording')

const collect = (text: string, before: readonly string[]): readonly string[] => [...before, text]
