/** An outpost file from disk to one compiled design, its own or that of a variant. */
import { existsSync, readFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import type { Diagnostic, Finding, Path } from '../outpost/file/diagnostic.ts'
import { diagnose } from '../outpost/file/document.ts'
import { formatDiagnostic } from '../outpost/file/format-diagnostic.ts'
import { type Design, readOutpost, type Variant } from '../outpost/file/read.ts'
import { insideFolder } from './inside-folder.ts'
import { Refusal } from './refusal.ts'
import { textOf } from './text-of.ts'

/** An outpost by a text that need not be saved; what it names is found beside `path`, and nothing outside `folder`. */
export interface OutpostText {
  /** Relative to `folder`. */
  readonly path: string
  readonly text: string
  readonly folder: string
}

/** A path, or a text. */
export type OutpostSource = string | OutpostText

export interface OpenDesign {
  /** As it was given. */
  readonly path: string
  readonly design: Design
  /** All the variants of the file, whichever was asked for. */
  readonly variants: readonly Variant[]
  /** Doubts about the file, and about the variant that was asked for. */
  readonly warnings: readonly Diagnostic[]
  readonly text: string
  /** The bytes of a file that it names; null where there is none. */
  readonly weather: (name: string) => Uint8Array | null
  /** What stands at `path` of the file will not do: a Refusal that points at each place. */
  readonly refuse: (problems: readonly (Omit<Finding, 'severity'> & { readonly path: Path })[]) => Refusal
}

/** Throws a Refusal where the file cannot be read, has errors, or lacks the variant. */
export async function openDesign(
  source: OutpostSource,
  variant: string | null,
  colour: boolean,
): Promise<OpenDesign> {
  const { path, text, weather } = await taken(source)
  const read = readOutpost(text, { weather })
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
    path,
    design,
    variants: read.variants,
    warnings: read.warnings.filter((warning) => warning.variant === null || warning.variant === variant),
    text,
    weather,
    refuse: (problems) =>
      shown(
        problems.map(({ path: at, ...finding }) => ({
          ...diagnose(read.document, at, 'value', { ...finding, severity: 'error' }),
          variant,
        })),
      ),
  }
}

async function taken(source: OutpostSource) {
  if (typeof source === 'string')
    return {
      path: source,
      text: await textOf(source),
      weather: (name: string) => bytesBeside(source, name),
    }
  return { ...source, weather: (name: string) => bytesWithin(source, name) }
}

/** The bytes of a file that the file at `path` names, relative to it; null where there is none. */
function bytesBeside(path: string, name: string): Uint8Array | null {
  const file = resolve(dirname(path), name)
  return existsSync(file) ? readFileSync(file) : null
}

function bytesWithin({ path, folder }: OutpostText, name: string): Uint8Array | null {
  const found = insideFolder(folder, resolve(folder, dirname(path), name))
  if (found.is === 'barred')
    throw new Refusal(
      `${path} names the file "${name}", which is not for the workbench to read: it lies outside the folder, or is hidden.\n  cure: put a copy into the folder, or open the workbench on a folder that holds both`,
    )
  return found.is === 'file' ? readFileSync(found.path) : null
}
