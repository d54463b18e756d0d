/** An outpost file from disk to one compiled design, its own or that of a variant. */
import { existsSync, readFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import type { Diagnostic, Finding, Path } from '../outpost/file/diagnostic.ts'
import { diagnose } from '../outpost/file/document.ts'
import { formatDiagnostic } from '../outpost/file/format-diagnostic.ts'
import { type Design, readOutpost, type Variant } from '../outpost/file/read.ts'
import { Refusal } from './refusal.ts'
import { textOf } from './text-of.ts'

export interface OpenDesign {
  readonly design: Design
  /** All the variants of the file, whichever was asked for. */
  readonly variants: readonly Variant[]
  /** Doubts about the file, and about the variant that was asked for. */
  readonly warnings: readonly Diagnostic[]
  readonly text: string
  /** What stands at `path` of the file will not do: a Refusal that points at each place. */
  readonly refuse: (problems: readonly (Omit<Finding, 'severity'> & { readonly path: Path })[]) => Refusal
}

/** Throws a Refusal where the file cannot be read, has errors, or lacks the variant. */
export async function openDesign(path: string, variant: string | null, colour: boolean): Promise<OpenDesign> {
  const text = await textOf(path)
  const read = readOutpost(text, { weather: (name) => bytesBeside(path, name) })
  const shown = (diagnostics: readonly Parameters<typeof formatDiagnostic>[0][]) =>
    new Refusal(
      diagnostics.map((each) => formatDiagnostic(each, text, { fileName: path, colour })).join('\n\n'),
    )
  if (!read.ok) throw shown(read.diagnostics)
  const design = variant === null ? read : read.variants.find(({ name }) => name === variant)
  if (design === undefined)
    throw new Refusal(
      `${path} has no variant "${variant}"; it has ${read.variants.map(({ name }) => `"${name}"`).join(', ') || 'none'}.`,
    )
  return {
    design,
    variants: read.variants,
    warnings: read.warnings.filter((warning) => warning.variant === null || warning.variant === variant),
    text,
    refuse: (problems) =>
      shown(
        problems.map(({ path: at, ...finding }) => ({
          ...diagnose(read.document, at, 'value', { ...finding, severity: 'error' }),
          variant,
        })),
      ),
  }
}

/** The bytes of a file that the file at `path` names, relative to it; null where there is none. */
export function bytesBeside(path: string, name: string): Uint8Array | null {
  const file = resolve(dirname(path), name)
  return existsSync(file) ? readFileSync(file) : null
}
