/**
 * An instrument from its file: what the maker states of each range, in YAML. Whatever is wrong comes back at once, with
 * its place, as for an outpost file. docs/recordings.md tells every key.
 */
import { z } from 'zod'
import type { Diagnostic } from '../outpost/file/diagnostic.ts'
import {
  dataOf,
  diagnose,
  isReadable,
  parseOutpostDocument,
  syntaxProblems,
} from '../outpost/file/document.ts'
import { Findings } from '../outpost/file/findings.ts'
import { formatDiagnostic } from '../outpost/file/format-diagnostic.ts'
import { quantity } from '../outpost/file/quantity-field.ts'
import { reportIssues } from '../outpost/file/schema-problems.ts'
import { formatQuantity } from '../quantity/format.ts'
import { best } from '../quantity/spread.ts'
import type { Instrument, InstrumentRange } from '../recording/instrument.ts'
import { accuracyField, NO_ERROR } from './instrument-accuracy.ts'
import { Refusal } from './refusal.ts'
import { textOf } from './text-of.ts'

const range = z.strictObject({
  'up to': quantity(
    'current',
    { description: 'Largest current that the range shows.', examples: ['400 mA'] },
    { positive: true },
  ),
  name: z
    .string()
    .min(1)
    .meta({ description: 'What the range is called; its limit by default.', examples: ['mA'] })
    .optional(),
  digit: quantity(
    'current',
    { description: 'Step of the reading.', examples: ['0.1 mA'] },
    { low: 0 },
  ).optional(),
  accuracy: accuracyField.optional(),
  burden: quantity(
    'resistance',
    { description: 'Resistance between its terminals, leads and fuse included.', examples: ['1.5 Ω'] },
    { low: 0 },
  ).optional(),
  bandwidth: quantity(
    'frequency',
    { description: 'Where its response has fallen by 3 dB.', examples: ['50 kHz'] },
    { positive: true },
  ).optional(),
})

const schema = z.strictObject({
  instrument: z
    .string()
    .min(1)
    .meta({ description: 'What it is.', examples: ['hand multimeter of 4000 counts'] }),
  samples: z
    .enum(['mean', 'instant'])
    .meta({
      description: 'Whether a sample is the mean over its interval, or the value at an instant.',
      examples: ['mean'],
    })
    .optional(),
  ranges: z
    .array(range)
    .min(1)
    .meta({ description: 'Its ranges, the smallest first.', examples: ['- { up to: 400 mA }'] }),
})

/** `called`: what a Refusal calls the file. */
export async function openInstrument(path: string, colour: boolean, called = path): Promise<Instrument> {
  const source = await textOf(path)
  const read = readInstrument(source)
  if ('instrument' in read) return read.instrument
  throw new Refusal(
    read.problems
      .map((problem) => formatDiagnostic(problem, source, { fileName: called, colour }))
      .join('\n\n'),
  )
}

export function readInstrument(
  source: string,
): { readonly instrument: Instrument } | { readonly problems: readonly Diagnostic[] } {
  const document = parseOutpostDocument(source)
  const syntax = syntaxProblems(document)
  if (!isReadable(document)) return { problems: syntax }
  const read = dataOf(document)
  if ('problem' in read) return { problems: [...syntax, read.problem] }
  const findings = new Findings()
  const result = schema.safeParse(read.data ?? {})
  if (!result.success) reportIssues(result.error.issues, { schema, data: read.data, at: [] }, findings)
  const instrument = result.success ? instrumentOf(result.data) : null
  if (instrument !== null) checkOrder(instrument, findings)
  const problems = [
    ...syntax,
    ...findings.problems.map(({ path, aim, finding }) => diagnose(document, path, aim, finding)),
  ]
  return instrument !== null && problems.length === 0 ? { instrument } : { problems }
}

function instrumentOf(file: z.output<typeof schema>): Instrument {
  const ranges = file.ranges.map((each): InstrumentRange => {
    const fullScale_A = best(each['up to'].value)
    const limits = each.accuracy?.value ?? NO_ERROR
    return {
      name: each.name ?? formatQuantity(fullScale_A, 'current'),
      fullScale_A,
      digit_A: each.digit === undefined ? 0 : best(each.digit.value),
      accuracyOfReading: limits.ofReading,
      accuracyDigits: limits.digits,
      accuracyOffset_A: limits.offset_A + limits.ofRange * fullScale_A,
      burden_Ohm: each.burden === undefined ? 0 : best(each.burden.value),
      bandwidth_Hz: each.bandwidth === undefined ? null : best(each.bandwidth.value),
    }
  })
  return { name: file.instrument, ranges, sample: file.samples ?? 'mean' }
}

function checkOrder({ ranges }: Instrument, findings: Findings): void {
  ranges.forEach(({ name, fullScale_A, digit_A, accuracyDigits }, k) => {
    if (k > 0 && fullScale_A <= ranges[k - 1].fullScale_A)
      findings.error(['ranges', k, 'up to'], {
        code: 'ranges-out-of-order',
        message: `range ${name} shows no more than the one before it`,
        expected: `more than ${formatQuantity(ranges[k - 1].fullScale_A, 'current')}`,
        cure: 'list the ranges from the smallest up',
      })
    if (accuracyDigits > 0 && digit_A === 0)
      findings.error(['ranges', k, 'accuracy'], {
        code: 'digit-missing',
        message: 'the accuracy counts in digits, and the range says of none how large it is',
        expected: 'digit: the step of the reading, as in "0.1 mA"',
        cure: 'add "digit", or write the accuracy with a current',
      })
  })
}
