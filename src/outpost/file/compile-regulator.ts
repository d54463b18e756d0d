/** From what the file says of regulator and capacitor to the engine's. */
import type { Curve } from '../../numeric/curve.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { parseQuantity } from '../../quantity/parse-quantity.ts'
import { best, quantileOf } from '../../quantity/spread.ts'
import { exactly, type Uncertain } from '../../quantity/uncertain.ts'
import { usualLeakage } from '../../supply/capacitor-leakage.ts'
import type { Capacitor, Regulator } from '../../supply/supply.ts'
import type { Path } from './diagnostic.ts'
import type { Findings } from './findings.ts'
import type { OutpostFile } from './schema.ts'

type RegulatorEntry = OutpostFile['supply']['regulator']
type CapacitorEntry = OutpostFile['supply']['capacitor']
type EfficiencyEntry = Extract<NonNullable<RegulatorEntry>, { efficiency: unknown }>['efficiency']

const AT = ['supply', 'regulator'] as const
const CAPACITOR = ['supply', 'capacitor'] as const
const COMMON_PRACTICE = 'common practice, from memory'

const USUAL_DROP_OUT: Uncertain = { kind: 'uniform', low: 0.1, high: 0.3 }
const USUAL_ESR: Uncertain = { kind: 'uniform', low: 0.02, high: 0.5 }

/** The span over which one stated efficiency is taken to hold. */
const FLAT_A = [1e-6, 1] as const

export function compileRegulator(entry: RegulatorEntry, findings: Findings): Regulator {
  if (entry === undefined) findings.assume(AT, 'none: the device runs straight from the cell', 'default')
  if (entry === undefined || entry === 'none') return { kind: 'none' }
  const common = {
    output_V: entry.output.value,
    dropOut_V: entry['drop-out']?.value ?? USUAL_DROP_OUT,
    quiescent_A: entry.quiescent.value,
  }
  if (entry['drop-out'] === undefined) findings.assume([...AT, 'drop-out'], '0.1..0.3 V', COMMON_PRACTICE)
  if (entry.kind === 'linear') return { kind: 'linear', ...common }
  if (entry.minimum === undefined)
    findings.assume([...AT, 'minimum'], 'a buck converter passes its input through, however low', 'default')
  return {
    kind: entry.kind,
    ...common,
    minimum_V: entry.minimum?.value ?? exactly(0),
    efficiency: compileEfficiency(entry.efficiency, findings),
  }
}

function compileEfficiency(entry: EfficiencyEntry, findings: Findings): Curve {
  const at = [...AT, 'efficiency']
  if (isOneNumber(entry)) {
    findings.assume(at, 'the same efficiency at any current', 'as the file has it')
    return { x: FLAT_A, y: FLAT_A.map(() => best(entry.value)) }
  }
  const points = Object.entries(entry).flatMap(([key, { value }]) => {
    const current = parseQuantity(key, 'current')
    if (current.ok && current.value > 0) return [{ key, current_A: current.value, share: best(value) }]
    findings.error(
      [...at, key],
      {
        code: 'efficiency-current',
        message: `"${key}" is no output current`,
        expected: 'a current above zero with its unit, as in "10 mA: 85 %"',
        cure: 'write the output current before the colon',
      },
      'key',
    )
    return []
  })
  const sorted = points.sort((a, b) => a.current_A - b.current_A)
  checkCurve(sorted, at, findings)
  return { x: sorted.map((point) => point.current_A), y: sorted.map((point) => point.share) }
}

interface EfficiencyPoint {
  readonly key: string
  readonly current_A: number
  readonly share: number
}

function checkCurve(points: readonly EfficiencyPoint[], at: Path, findings: Findings): void {
  if (points.length < 2)
    findings.error(at, {
      code: 'efficiency-points',
      message: `${points.length} points do not make a curve`,
      expected: 'two or more currents with their efficiencies, or one efficiency alone',
      cure: 'add a point, or write "efficiency: 85 %"',
    })
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]]
    if (a.current_A === b.current_A || b.share / a.share > b.current_A / a.current_A)
      findings.error(
        [...at, b.key],
        {
          code: 'efficiency-rises-too-fast',
          message: `from ${a.key} to ${b.key} the efficiency rises faster than the current, so less would go in for more out`,
          expected: 'efficiency that rises less than in proportion to the current',
          cure: 'check both points against the data sheet',
        },
        'key',
      )
  }
}

const isOneNumber = (entry: EfficiencyEntry): entry is Extract<EfficiencyEntry, { source: string | null }> =>
  'source' in entry && 'value' in entry && (entry.source === null || typeof entry.source === 'string')

/** `pack_V` is the voltage across it, for the leakage where the file does not say it. */
export function compileCapacitor(
  entry: CapacitorEntry,
  pack_V: number,
  findings: Findings,
): Capacitor | null {
  if (entry === undefined) return null
  if (entry.ESR === undefined) findings.assume([...CAPACITOR, 'ESR'], '0.02..0.5 Ω', COMMON_PRACTICE)
  return {
    capacitance_F: entry.capacitance.value,
    esr_Ohm: entry.ESR?.value ?? USUAL_ESR,
    leakage_A: entry.leakage?.value ?? assumedLeakage(entry, pack_V, findings),
  }
}

function assumedLeakage(entry: NonNullable<CapacitorEntry>, pack_V: number, findings: Findings): Uncertain {
  const bears_V = entry.rating === undefined ? pack_V : best(entry.rating.value)
  const { kind, leakage_A } = usualLeakage(best(entry.capacitance.value), bears_V, pack_V)
  const amperes = (p: number) => formatQuantity(quantileOf(leakage_A, p), 'current', { digits: 2 })
  const told =
    kind === 'electrolytic'
      ? 'an electrolytic capacitor after days at its voltage, a hundredth to a tenth of the 0.01 CV of data sheets'
      : 'a double-layer capacitor after days at its voltage, 1 to 4 µA a farad of each cell'
  findings.assume(
    [...CAPACITOR, 'leakage'],
    `${amperes(0.5)} [${amperes(0.05)}, ${amperes(0.95)}]: ${told}`,
    COMMON_PRACTICE,
  )
  return leakage_A
}
