/** What is wrong with a variant as a patch, which the patched file alone does not show. */
import { CADENCE_KINDS } from './compile-cadence.ts'
import type { Path } from './diagnostic.ts'
import type { Findings } from './findings.ts'

type Mapping = Readonly<Record<string, unknown>>

/** `at` is where the patch stands; `findings` are those of the patched file. */
export function checkPatch(base: Mapping, patch: Mapping, at: Path, findings: Findings): void {
  if ('variants' in patch)
    findings.error(
      [...at, 'variants'],
      {
        code: 'variant-in-variant',
        message: 'a variant has no variants of its own',
        expected: 'the sections of the file that differ',
        cure: 'move it up, beside the others',
      },
      'key',
    )
  tellInheritedCadence(base.cadence, patch.cadence, at, findings)
}

/** Two cadences, of which the file says one and the variant the other: neither is wrong, and `null` parts them. */
function tellInheritedCadence(inFile: unknown, inPatch: unknown, at: Path, findings: Findings): void {
  if (!isMapping(inFile) || !isMapping(inPatch)) return
  const inherited = CADENCE_KINDS.find((kind) => kind in inFile && !(kind in inPatch))
  const own = CADENCE_KINDS.find((kind) => kind in inPatch && inPatch[kind] !== null)
  if (inherited === undefined || own === undefined) return
  findings.reword('cadence-ambiguous', ({ finding }) => ({
    path: [...at, 'cadence', own],
    aim: 'key',
    finding: {
      ...finding,
      message: `"${own}" here and "${inherited}" of the file both say when the next wake is`,
      cure: `write "${inherited}: null" beside "${own}"`,
    },
  }))
}

const isMapping = (value: unknown): value is Mapping =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
