/** `overwinter compare`: the variants of one outpost, or two recordings. */
import { Refusal } from '../workbench/refusal.ts'
import type { CompareRecordingsOptions } from './compare-recordings-command.ts'
import type { CompareVariantsOptions } from './compare-variants-command.ts'
import { SOURCE_OPTIONS } from './source-options.ts'

type CompareOptions = CompareVariantsOptions & CompareRecordingsOptions

/** Options that say something about one of the two forms only. */
const OF_VARIANTS = ['weather', 'html', 'svg'] as const
const OF_RECORDINGS = ['file', 'instrument', ...SOURCE_OPTIONS] as const

export async function compareCommand(
  first: string,
  second: string | undefined,
  options: CompareOptions,
): Promise<void> {
  const strange = (second === undefined ? OF_RECORDINGS : OF_VARIANTS).find(
    (name) => options[name] !== undefined,
  )
  if (strange !== undefined)
    throw new Refusal(
      second === undefined
        ? `--${strange} goes with two recordings, and ${first} is alone. Name the second recording, or leave the option out.`
        : `--${strange} goes with the variants of one outpost file, not with two recordings. Leave it out.`,
    )
  if (second !== undefined) {
    const { compareRecordingsCommand } = await import('./compare-recordings-command.ts')
    return compareRecordingsCommand(first, second, options)
  }
  if (!/\.ya?ml$/i.test(first))
    throw new Refusal(
      `${first} alone cannot be compared: name a second recording, or one outpost file (.yaml) with variants.`,
    )
  const { compareVariantsCommand } = await import('./compare-variants-command.ts')
  return compareVariantsCommand(first, options)
}
