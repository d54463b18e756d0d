/** `overwinter record`: from a serial port or standard input into a file, drawn in the terminal while it comes. */
import { type LivePicture, liveLines, totals } from '../report/live-picture.ts'
import { readEnvironment } from '../workbench/environment.ts'
import { type Recorded, record } from '../workbench/record.ts'
import { serialPort, standardInput } from '../workbench/record-source.ts'
import { Refusal } from '../workbench/refusal.ts'

export interface RecordOptions {
  readonly out: string
  readonly serial?: string
  readonly baud: number
  readonly for?: number
  readonly rate?: number
  readonly json?: boolean
}

export async function recordCommand(options: RecordOptions): Promise<void> {
  const { serial, baud, out, rate } = options
  if (serial === undefined && process.stdin.isTTY === true)
    throw new Refusal('Nothing to record from: name a port with --serial, or pipe lines into this command.')
  const source = serial === undefined ? standardInput() : await serialPort(serial, baud)
  const stopping = new AbortController()
  const stop = () => stopping.abort()
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
  for (const signal of signals) process.on(signal, stop)
  const timer = options.for === undefined ? null : setTimeout(stop, 1000 * options.for)
  const screen = liveScreen(readEnvironment().errIsTerminal)
  try {
    const recorded = await record(source, {
      out,
      read: rate === undefined ? {} : { rate_Hz: rate },
      signal: stopping.signal,
      onPicture: screen.show,
    })
    screen.clear()
    if (options.json) process.stdout.write(`${JSON.stringify(recorded, null, 2)}\n`)
    else process.stdout.write(`${summary(recorded).join('\n')}\n`)
    if (recorded.ending === 'pulled' || recorded.ending === 'not written' || recorded.problem !== null)
      process.exitCode = 1
  } finally {
    if (timer !== null) clearTimeout(timer)
    for (const signal of signals) process.removeListener(signal, stop)
    source.close()
  }
}

/** Draws over what it drew before. */
function liveScreen(isTerminal: boolean) {
  let drawn = 0
  const clear = () => {
    if (drawn > 0) process.stderr.write(`\u001b[${drawn}A\u001b[J`)
    drawn = 0
  }
  const show = (picture: LivePicture, problem: string | null) => {
    if (!isTerminal) return
    clear()
    const lines = [...liveLines(picture), ...(problem === null ? [] : [`cannot be read: ${problem}`])]
    process.stderr.write(`${lines.join('\n')}\n`)
    drawn = lines.length
  }
  return { show, clear }
}

function summary({ out, source, ending, why, cut, picture, problem }: Recorded): string[] {
  const endings = {
    ended: `${source} came to its end.`,
    stopped: 'Stopped.',
    pulled: `${source} is gone${why === null ? '' : ` (${why})`}: is the cable out? What came before is kept.`,
    'not written': `${out} takes no more: ${why}. What was written before is kept.`,
  }
  return [
    endings[ending],
    ...(problem === null ? totals(picture) : [`The lines are kept, and cannot be read: ${problem}.`]),
    ...(cut ? ['The last line was still under way, and is left out.'] : []),
    `Wrote ${out}. Next: overwinter read ${out}`,
  ]
}
