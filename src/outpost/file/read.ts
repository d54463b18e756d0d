/**
 * An outpost file from its text to the plain data of the engine: YAML, schema, compilation, physical checks. Whatever
 * is wrong comes back at once, each with its place; nothing is thrown, and nothing is guessed.
 */
import type { z } from 'zod'
import type { WeatherYear } from '../../sky/place.ts'
import type { Outpost } from '../outpost.ts'
import { checkPatch } from './check-patch.ts'
import { compileFile } from './compile-file.ts'
import type { FileResolver } from './compile-weather.ts'
import type { Diagnostic, Finding, Path } from './diagnostic.ts'
import {
  type Aim,
  dataOf,
  diagnose,
  isReadable,
  type OutpostDocument,
  parseOutpostDocument,
  syntaxProblems,
} from './document.ts'
import { type Assumption, Findings } from './findings.ts'
import { mergePatch } from './merge-patch.ts'
import { type NumberSource, sourcesIn } from './number-sources.ts'
import { outpostSchema } from './schema.ts'
import { unknownKey } from './schema-problems.ts'

export interface ReadOptions {
  /** Gives the bytes of a weather file named in the outpost, relative to it; null where there is none. */
  readonly weather?: FileResolver
}

/** One compiled design: the file itself, or the file under one of its variants. */
export interface Design {
  readonly outpost: Outpost
  /** Where the weather comes from a file. */
  readonly weatherYear: WeatherYear | null
  readonly assumptions: readonly Assumption[]
  /** Numbers that say where they come from. */
  readonly sources: readonly NumberSource[]
}

export interface Variant extends Design {
  readonly name: string
}

export type ReadResult =
  | (Design & {
      readonly ok: true
      readonly variants: readonly Variant[]
      readonly warnings: readonly Diagnostic[]
      readonly document: OutpostDocument
    })
  | { readonly ok: false; readonly diagnostics: readonly Diagnostic[]; readonly document: OutpostDocument }

type Mapping = Readonly<Record<string, unknown>>

export function readOutpost(text: string, options: ReadOptions = {}): ReadResult {
  const document = parseOutpostDocument(text)
  const syntax = syntaxProblems(document)
  if (!isReadable(document)) return { ok: false, diagnostics: syntax, document }
  const read = dataOf(document)
  if ('problem' in read) return { ok: false, diagnostics: [...syntax, read.problem], document }
  const { data } = read
  if (!isMapping(data)) return { ok: false, diagnostics: [...syntax, noMapping(document, data)], document }
  const files = options.weather ?? (() => null)

  const { variants: patches, ...own } = data
  const base = compile(own, files)
  const variants = patchesOf(patches).map(([name, patch]) => compileVariant(own, name, patch, files))
  const findings = variantShape(patches)
  const diagnostics = sorted([
    ...syntax,
    ...placed(document, base.findings, null, (path) => path),
    ...placed(document, findings, null, (path) => path),
    ...variants.flatMap(({ name, findings, origin }) => placed(document, findings, name, origin)),
  ])
  const compiled = variants.flatMap(({ name, design }) => (design === null ? [] : [{ name, ...design }]))
  if (base.design === null || diagnostics.some(({ severity }) => severity === 'error'))
    return { ok: false, diagnostics, document }
  return { ok: true, ...base.design, variants: compiled, warnings: diagnostics, document }
}

interface Compiled {
  readonly design: Design | null
  readonly findings: Findings
}

function compile(data: Mapping, files: FileResolver): Compiled {
  const findings = new Findings()
  const { compiled, sections } = compileFile(data, files, findings)
  const design =
    compiled === null
      ? null
      : { ...compiled, assumptions: findings.assumptions, sources: sourcesIn(sections) }
  return { design, findings }
}

function compileVariant(base: Mapping, name: string, patch: Mapping, files: FileResolver) {
  const at = ['variants', name]
  const { value, origin, strangers } = mergePatch(base, patch, at)
  const result = compile(value as Mapping, files)
  for (const { path, names } of strangers)
    result.findings.error(path, unknownKey(String(path.at(-1)), names), 'key')
  checkPatch(base, patch, at, result.findings)
  // Paths that already lead into the patch stay as they are.
  const into = (path: Path): Path => (path[0] === 'variants' ? path : origin(path))
  return { name, ...result, origin: into }
}

/** The variants that can be read; what is wrong with the others, `variantShape` says. */
function patchesOf(patches: unknown): [string, Mapping][] {
  if (!isMapping(patches)) return []
  return Object.entries(patches).filter((entry): entry is [string, Mapping] => isMapping(entry[1]))
}

function variantShape(patches: unknown): Findings {
  const findings = new Findings()
  if (patches === undefined) return findings
  const words = {
    code: 'wrong-type',
    message: 'a variant is a patch over the file',
    expected: 'a mapping from names to the sections that differ',
    cure: 'see the documentation of "variants"',
  }
  if (!isMapping(patches)) findings.error(['variants'], words)
  else
    for (const [name, patch] of Object.entries(patches))
      if (!isMapping(patch)) findings.error(['variants', name], words, 'key')
  return findings
}

/** What a variant shares with the file is said once, of the file. */
function placed(
  document: OutpostDocument,
  { problems }: Findings,
  variant: string | null,
  origin: (path: Path) => Path,
): Diagnostic[] {
  return problems.map(({ path, aim, finding }: { path: Path; aim: Aim; finding: Finding }) => ({
    ...diagnose(document, origin(path), aim, finding),
    variant,
  }))
}

function sorted(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const seen = new Set<string>()
  return diagnostics
    .filter(({ code, range: { start }, message }) => {
      const key = `${code} ${start.line}:${start.column} ${message}`
      return !seen.has(key) && seen.add(key)
    })
    .sort((a, b) => a.range.start.line - b.range.start.line || a.range.start.column - b.range.start.column)
}

function noMapping(document: OutpostDocument, data: unknown): Diagnostic {
  const empty = data === null || data === undefined
  return diagnose(document, [], 'value', {
    code: empty ? 'empty-file' : 'not-a-mapping',
    severity: 'error',
    message: empty ? 'the file is empty' : 'the file is not an outpost: it has no sections',
    expected: `sections as ${Object.keys((outpostSchema as z.ZodObject).shape).join(', ')}`,
    cure: 'begin with "overwinter: 1", or let "overwinter new" write a file',
  })
}

const isMapping = (value: unknown): value is Mapping =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
