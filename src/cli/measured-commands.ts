/** The commands that put what was measured beside an outpost file, and that which measures. */
import { type Command, InvalidArgumentError, Option } from 'commander'
import { quantity } from './quantity-option.ts'
import { addSourceOptions } from './source-options.ts'

export function addMeasuredCommands(root: Command): void {
  matching(root.command('adopt'))
    .description('write measured steps, rest and drains into an outpost file, its comments kept')
    .option('--yes', 'write without asking')
    .option('--json', 'print what changes as JSON')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter adopt bench-03.csv gauge.outpost.yaml --map "B = sense" --map "C = send"',
    )
    .action(async (recording, file, options) =>
      (await import('./adopt-command.ts')).adoptCommand(recording, file, options),
    )

  matching(root.command('check'))
    .description('does this build stay inside its budget: a gate for continuous integration')
    .option('--variant <name>', 'check against this variant of the file')
    .option(
      '--slack <share>',
      "allowed beyond the budget's tolerance: 5 %",
      quantity('ratio', 0, 10, 'a share from 0 to 1000 %'),
      0,
    )
    .option('--cadence', 'judge how often it wakes, too')
    .option('--strict', 'leave with 1 also where nobody can tell')
    .option('--json', 'print the whole answer as JSON')
    .option('--junit <file>', 'write the answer as JUnit XML')
    .addHelpText(
      'after',
      '\nExample:\n  overwinter check bench-04.csv gauge.outpost.yaml --instrument meter.yaml --junit current.xml',
    )
    .action(async (recording, file, options) =>
      (await import('./check-command.ts')).checkCommand(recording, file, options),
    )

  root
    .command('record')
    .argument('[-]', 'standard input, where no --serial is given')
    .description('record current from a serial port or standard input, one "time,current[,voltage]" a line')
    .requiredOption('--out <file>', 'where to write it; a file that is there is not touched')
    .option('--serial <path>', 'the serial port')
    .option('--baud <n>', 'its speed', baudRate, 115_200)
    .option(
      '--for <time>',
      'stop by itself after so long: "10 min"',
      quantity('duration', 1e-3, 3.2e8, 'a time up to ten years'),
    )
    .option(
      '--rate <frequency>',
      'sampling rate, where lines hold no time: "10 kHz"',
      quantity('frequency', 1e-6, 1e9, 'a rate up to 1 GHz'),
    )
    .option('--json', 'print what was recorded as JSON')
    .addHelpText(
      'after',
      '\nCtrl-C stops; what was recorded until then is kept.\n\nExample:\n  overwinter record --serial /dev/ttyUSB0 --baud 921600 --out bench-05.csv',
    )
    .action(async (_, options) => (await import('./record-command.ts')).recordCommand(options))
}

function matching(command: Command): Command {
  return addSourceOptions(command)
    .argument('<recording>', 'a recording: CSV, .npy, raw float32, packed or not')
    .argument('<file>', 'an outpost file (*.outpost.yaml)')
    .option(
      '--map <state = step>',
      'which state is which step: "C = send", "A = rest", "D = none"; again for each',
      gathered,
    )
    .addOption(
      new Option('--at <where>', 'where the instrument sat: behind the regulator, or before it')
        .choices(['rail', 'cell'])
        .default('rail'),
    )
    .option('--instrument <file>', 'what measured it: ranges, digits, accuracy')
    .option(
      '--range <change>',
      'from when on a range was set by hand: "2 min=400 mA"; again for each',
      gathered,
    )
}

const gathered = (text: string, before: readonly string[] = []): string[] => [...before, text]

function baudRate(text: string): number {
  const baud = Number(text)
  if (Number.isSafeInteger(baud) && baud > 0) return baud
  throw new InvalidArgumentError('a speed in baud is wanted, as 115200.')
}
