/** The command that opens the workbench; it is what `overwinter` alone does. */
import { type Command, InvalidArgumentError } from 'commander'

export function addServeCommand(root: Command): void {
  root
    .command('serve', { isDefault: true })
    // Whatever is no command comes here; the workbench is told by options only.
    .argument('[words...]')
    .usage('[options]')
    .description('open the workbench in the browser, on the outposts of a folder; also without a command')
    .option('--folder <folder>', 'the folder (default: this one, or the examples where it has no outposts)')
    .option('--examples', 'open a copy of the examples')
    .option('--port <n>', 'its port, or the next free one', port, 4848)
    .option(
      '--host <address>',
      'where to listen; others can connect unless it is this machine only',
      'localhost',
    )
    .option('--token [text]', 'ask everyone for this token, or for one that is made')
    .option('--no-open', 'do not open a browser')
    .addHelpText('after', '\nExample:\n  overwinter serve --folder firmware/outposts --no-open')
    .action(async ([word], options, command: Command) => {
      if (word !== undefined) command.error(`error: there is no command "${word}"`)
      await (await import('./serve-command.ts')).serveCommand(options)
    })
}

function port(text: string): number {
  const value = Number(text)
  if (/^\d+$/.test(text) && value <= 65_535) return value
  throw new InvalidArgumentError('a port from 0 to 65535 is wanted; 0 takes any free one.')
}
