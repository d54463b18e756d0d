/**
 * A parts list from its text: cells and panels as an outpost file writes them, each with a name and columns of numbers
 * (price, weight, size …). What is wrong comes back with its place, as for an outpost file.
 */
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
import type { CellPart, Column, PanelPart, PartsList } from '../parts.ts'
import { compilePack } from './compile-cell.ts'
import { compilePanel } from './compile-charging.ts'
import type { Diagnostic, Path } from './diagnostic.ts'
import {
  dataOf,
  diagnose,
  isReadable,
  type OutpostDocument,
  parseOutpostDocument,
  syntaxProblems,
} from './document.ts'
import { Findings } from './findings.ts'
import { reportIssues, unknownKey } from './schema-problems.ts'
import { supplySection } from './schema-supply.ts'

export type PartsResult =
  | { readonly ok: true; readonly parts: PartsList; readonly warnings: readonly Diagnostic[] }
  | { readonly ok: false; readonly diagnostics: readonly Diagnostic[] }

type Mapping = Readonly<Record<string, unknown>>

const SECTIONS = ['cells', 'panels'] as const
type Section = (typeof SECTIONS)[number]

const SCHEMAS = { cells: supplySection.shape.cell, panels: supplySection.shape.panel.unwrap() }
/** Where the outpost file's own reading looks for each, so that its findings can be moved to the list. */
const HOMES: Record<Section, Path> = { cells: ['supply', 'cell'], panels: ['supply', 'panel'] }
const OWN_KEYS: Record<Section, readonly string[]> = {
  cells: ['type', 'capacity', 'capacitance', 'series', 'parallel', 'charged', 'age'],
  panels: ['rated', 'open circuit', 'short circuit', 'maximum power', 'technology', 'cells', 'rise'],
}
const DIMENSIONS = ['mass', 'length', 'count'] as const

export function readParts(text: string): PartsResult {
  const document = parseOutpostDocument(text)
  const syntax = syntaxProblems(document)
  if (!isReadable(document)) return { ok: false, diagnostics: syntax }
  const read = dataOf(document)
  if ('problem' in read) return { ok: false, diagnostics: [...syntax, read.problem] }
  const findings = new Findings()
  const parts = compileParts(read.data, findings)
  const diagnostics = [...syntax, ...placed(document, findings)]
  if (parts === null || diagnostics.some(({ severity }) => severity === 'error'))
    return { ok: false, diagnostics }
  return { ok: true, parts, warnings: diagnostics }
}

const placed = (document: OutpostDocument, { problems }: Findings): Diagnostic[] =>
  problems.map(({ path, aim, finding }) => diagnose(document, path, aim, finding))

function compileParts(data: unknown, findings: Findings): PartsList | null {
  if (!isMapping(data)) {
    findings.error([], {
      code: 'not-a-mapping',
      message: 'the file is not a parts list: it has no sections',
      expected: 'sections cells and panels, each a list',
      cure: 'begin with "cells:", then a line "- name: …" for each',
    })
    return null
  }
  for (const key of Object.keys(data))
    if (!SECTIONS.some((section) => section === key)) findings.error([key], unknownKey(key, SECTIONS), 'key')
  const columns = new Map<string, { dimension: Column['dimension']; filled: number }>()
  const cells = compileSection('cells', data, columns, findings, (entry, own) => {
    const pack = compilePack(entry as Parameters<typeof compilePack>[0], own)
    return pack === null ? null : { pack }
  })
  const panels = compileSection('panels', data, columns, findings, (entry, own) => {
    const panel = compilePanel(entry as Parameters<typeof compilePanel>[0], own)
    return panel === null ? null : { panel }
  })
  const all = cells.length + panels.length
  return {
    cells: cells as CellPart[],
    panels: panels as PanelPart[],
    columns: [...columns].flatMap(([name, { dimension, filled }]) =>
      filled === all ? [{ name, dimension }] : [],
    ),
  }
}

function compileSection<Compiled>(
  section: Section,
  data: Mapping,
  columns: Map<string, { dimension: Column['dimension']; filled: number }>,
  findings: Findings,
  compile: (entry: unknown, findings: Findings) => Compiled | null,
): (Compiled & { name: string; costs: Record<string, number> })[] {
  const list = data[section]
  if (list === undefined && section === 'panels') return []
  if (!Array.isArray(list) || list.length === 0) {
    findings.error(list === undefined ? [] : [section], {
      code: list === undefined ? 'missing-key' : 'wrong-type',
      message: list === undefined ? `"${section}" is missing` : `"${section}" is no list of parts`,
      expected: `a list (lines that begin with "- ") of ${section}`,
      cure: `write "${section}:" and under it "- name: …" for each`,
    })
    return []
  }
  const names = new Set<string>()
  return list.flatMap((entry: unknown, i) => {
    const at: Path = [section, i]
    if (!isMapping(entry) || typeof entry.name !== 'string' || entry.name === '') {
      findings.error(at, {
        code: 'missing-key',
        message: 'this part has no name',
        expected: 'name: what it is called on the shelf',
        cure: 'add "name: …"',
      })
      return []
    }
    if (names.has(entry.name))
      findings.error([...at, 'name'], {
        code: 'name-twice',
        message: `two of the ${section} are called "${entry.name}"`,
        expected: 'a name of its own for each',
        cure: 'rename one of them',
      })
    names.add(entry.name)
    const own = Object.entries(entry).filter(([key]) => OWN_KEYS[section].includes(key))
    const costs = costsOf(entry, section, at, columns, findings)
    const schema = SCHEMAS[section]
    const given = Object.fromEntries(own)
    const result = schema.safeParse(given)
    if (!result.success) {
      reportIssues(result.error.issues, { schema, data: given, at }, findings)
      return []
    }
    const inside = new Findings()
    const compiled = compile(result.data, inside)
    for (const { path, aim, finding } of inside.problems) {
      const moved = [...at, ...path.slice(HOMES[section].length)]
      if (finding.severity === 'error') findings.error(moved, finding, aim)
      else findings.warn(moved, finding, aim)
    }
    return compiled === null ? [] : [{ ...compiled, name: entry.name, costs }]
  })
}

/** Every key that is not the part's own is a column. */
function costsOf(
  entry: Mapping,
  section: Section,
  at: Path,
  columns: Map<string, { dimension: Column['dimension']; filled: number }>,
  findings: Findings,
): Record<string, number> {
  const costs: Record<string, number> = {}
  for (const [key, value] of Object.entries(entry)) {
    if (key === 'name' || OWN_KEYS[section].includes(key)) continue
    const known = columns.get(key)
    const read = costOf(value, known === undefined ? DIMENSIONS : [known.dimension])
    if (read === null || read.cost < 0) {
      findings.error([...at, key], {
        code: 'not-a-cost',
        message: `"${String(value)}" is no number to add up under "${key}"`,
        expected:
          known === undefined || known.dimension === 'count'
            ? 'a plain number (4.20), a mass (14 g) or a length (34 mm), zero or more'
            : `a ${known.dimension} as in the parts above, zero or more`,
        cure: `write it as the other parts do; or, if "${key}" belongs to the part itself, one of ${OWN_KEYS[section].join(', ')}`,
      })
      continue
    }
    columns.set(key, { dimension: read.dimension, filled: (known?.filled ?? 0) + 1 })
    costs[key] = read.cost
  }
  return costs
}

function costOf(value: unknown, dimensions: readonly Column['dimension'][]) {
  if (typeof value !== 'string' && typeof value !== 'number') return null
  for (const dimension of dimensions) {
    const parsed = parseUncertain(String(value), dimension)
    if (parsed.ok) return { dimension, cost: best(parsed.value) }
  }
  return null
}

const isMapping = (value: unknown): value is Mapping =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
