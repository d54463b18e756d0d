/** One file's data through the schema section by section, so that a slip in one hides nothing in the others. */
import { best } from '../../quantity/spread.ts'
import type { WeatherYear } from '../../sky/place.ts'
import type { Aims, Outpost } from '../outpost.ts'
import { checkCharging } from './check-charging.ts'
import { checkColdCell } from './check-cold.ts'
import { checkLeakage } from './check-leakage.ts'
import { checkPlane } from './check-place.ts'
import { checkBursts, checkSupply } from './check-supply.ts'
import { checkTolerances } from './check-tolerance.ts'
import { checkWake } from './check-wake.ts'
import { compileCadence } from './compile-cadence.ts'
import { compilePlace } from './compile-place.ts'
import { compileSupply } from './compile-supply.ts'
import { compileWake } from './compile-wake.ts'
import type { FileResolver } from './compile-weather.ts'
import type { Findings } from './findings.ts'
import { type OutpostFile, outpostSchema } from './schema.ts'
import { reportIssues, unknownKey } from './schema-problems.ts'

export interface Compilation {
  readonly outpost: Outpost
  readonly weatherYear: WeatherYear | null
}

const WAKE_SECTIONS: readonly string[] = ['wake', 'cadence', 'rest', 'standing', 'resume', 'keeps']

type Sections = { readonly [S in keyof OutpostFile]?: OutpostFile[S] }

const { variants: _, ...shape } = outpostSchema.shape

/** `compiled` is null where something essential is missing; `sections` holds what the schema could read. */
export function compileFile(
  data: Readonly<Record<string, unknown>>,
  files: FileResolver,
  findings: Findings,
): { readonly compiled: Compilation | null; readonly sections: Sections } {
  const sections = readSections(data, findings)
  checkTolerances(sections, findings)
  const { wake, cadence, rest, supply, place, title } = sections
  const isWhole = (...keys: (keyof typeof shape)[]) =>
    keys.every((key) => sections[key] !== undefined || data[key] === undefined)

  const compiledPlace =
    place === undefined ? null : compilePlace(place, supply?.panel !== undefined, files, findings)
  const compiledSupply = supply === undefined ? null : compileSupply(supply, findings)
  const compiledCadence =
    cadence === undefined ? null : compileCadence(cadence, compiledPlace?.zone ?? null, findings)
  const compiledWake =
    wake !== undefined &&
    rest !== undefined &&
    compiledCadence !== null &&
    isWhole('standing', 'resume', 'keeps')
      ? compileWake({ ...sections, wake, rest }, compiledCadence, findings)
      : null
  const aims = compileAims(sections.aims)

  // Sums over impossible steps would say nothing true.
  if (compiledWake !== null && !findings.hasErrorsIn(WAKE_SECTIONS))
    checkWake(compiledWake, compiledPlace?.place.zone_h ?? null, aims, findings)
  if (supply !== undefined && compiledSupply !== null) {
    checkSupply(compiledSupply, supply, findings)
    checkCharging(compiledSupply, supply, compiledPlace?.place ?? null, findings)
    if (compiledPlace !== null) checkColdCell(compiledSupply, compiledPlace.place, findings)
    if (compiledWake !== null) checkBursts(compiledWake, compiledSupply, findings)
    if (compiledWake !== null && !findings.hasErrorsIn([...WAKE_SECTIONS, 'supply']))
      checkLeakage(compiledWake, compiledSupply, supply, compiledPlace?.place.zone_h ?? null, findings)
  }
  if (compiledPlace !== null && supply?.panel !== undefined) checkPlane(compiledPlace.place, findings)

  if (compiledWake === null || compiledSupply === null || compiledPlace === null || title === undefined)
    return { compiled: null, sections }
  const { place: where, weatherYear } = compiledPlace
  return {
    compiled: {
      outpost: { title, wake: compiledWake, supply: compiledSupply, place: where, aims },
      weatherYear,
    },
    sections,
  }
}

function readSections(data: Readonly<Record<string, unknown>>, findings: Findings): Sections {
  const sections: Record<string, unknown> = {}
  for (const [key, schema] of Object.entries(shape)) {
    const result = schema.safeParse(data[key])
    if (result.success) sections[key] = result.data
    else reportIssues(result.error.issues, { schema, data: data[key], at: [key] }, findings)
  }
  const known = Object.keys(outpostSchema.shape)
  for (const key of Object.keys(data))
    if (!known.includes(key)) findings.error([key], unknownKey(key, known), 'key')
  return sections as Sections
}

function compileAims(aims: OutpostFile['aims']): Aims {
  return {
    winters: aims?.winters ? best(aims.winters.value) : null,
    reportsPerDay: aims?.['reports per day'] ?? null,
    noBrownout: aims?.['no brown-out'] ?? false,
    years: aims?.years ?? null,
  }
}
