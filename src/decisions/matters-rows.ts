/**
 * Saltelli's design played row by row: a row is one drawing of every unknown (A), another (B), and A with each unknown in
 * turn taken from B; then A again with each mend. All of a row's futures that share a weather live under the same days.
 * Row j draws from points and streams of its own, so that any number of threads can share the work.
 */
import { stream } from '../numeric/random.ts'
import { SOBOL_DIMENSIONS, sobolPoints } from '../numeric/sobol-sequence.ts'
import { compilePlan, tablePanel } from '../outlook/compile.ts'
import { atBest, drawn, type Probabilities } from '../outlook/draw.ts'
import { type Ensemble, flashLife_days, wakesOf } from '../outlook/ensemble.ts'
import { onGround, planeOf } from '../outlook/plane.ts'
import { drawnSky } from '../outlook/sky-source.ts'
import type { Outpost } from '../outpost/outpost.ts'
import { dayShapes } from '../sky/day-shape.ts'
import { prepareGenerator } from '../sky/generator.ts'
import { type MattersInput, mattersInputs } from './matters-inputs.ts'
import { type Mend, mendsOf } from './matters-mends.ts'
import { KeptSky, lifeOf, winterOf } from './matters-play.ts'
import { remember } from './remember.ts'

export interface MattersProblem {
  /** `runs` is the number of rows, a power of two by choice; `years` the horizon of a future. */
  readonly ensemble: Ensemble
  /** Judged by the last winter of the horizon; else by life. */
  readonly rechargeable: boolean
}

/** One future: days of life, or least charge 0..1 and whether the winter was survived. */
export interface Future {
  readonly value: number
  readonly survived: boolean
}

export interface Row {
  readonly a: Future
  readonly b: Future
  /** One for each input, in the order of `mattersInputs`. */
  readonly ab: readonly Future[]
  /** One for each mend, in the order of `mendsOf`. */
  readonly mended: readonly Future[]
}

const PURPOSE = { shift: 21, beyond: 22, weather: 23 }

/** Plays rows `from` to `to` (not included). */
export function playRows(problem: MattersProblem, from: number, to: number): Row[] {
  const { ensemble } = problem
  const inputs = mattersInputs(ensemble.outpost)
  const mends = mendsOf(atBest(ensemble.outpost))
  const shares = sharesOf(ensemble, inputs)
  const play = player(problem)
  return Array.from({ length: to - from }, (_, i) => playRow(from + i, inputs, mends, shares, play))
}

type Play = (shares: Float64Array, weather: number, mend: Mend | null) => Future
type Shares = (row: number) => { a: Float64Array; b: Float64Array; weatherA: number; weatherB: number }

function playRow(
  row: number,
  inputs: readonly MattersInput[],
  mends: readonly Mend[],
  shares: Shares,
  play: Play,
): Row {
  const { a, b, weatherA, weatherB } = shares(row)
  const mixed = inputs.map(({ kind }, i) => {
    if (kind === 'weather') return play(a, weatherB, null)
    const both = a.slice()
    both[i] = b[i]
    return play(both, weatherA, null)
  })
  return {
    a: play(a, weatherA, null),
    b: play(b, weatherB, null),
    ab: mixed,
    mended: mends.map((mend) => play(a, weatherA, mend)),
  }
}

/** The shares 0..1 at which each input's quantile is taken; inputs beyond the sequence's dimensions are drawn at random. */
function sharesOf({ runs, seed }: Ensemble, inputs: readonly MattersInput[]): Shares {
  const drawnInputs = inputs.filter(({ kind }) => kind !== 'weather').length
  const even = Math.min(drawnInputs, SOBOL_DIMENSIONS / 2)
  const points = even > 0 ? sobolPoints(runs, 2 * even, stream(seed, 0, PURPOSE.shift)) : null
  return (row) => {
    const beyond = stream(seed, row, PURPOSE.beyond)
    const half = (first: number) =>
      Float64Array.from({ length: drawnInputs }, (_, i) =>
        points !== null && i < even ? points[2 * even * row + first + i] : beyond.uniform(),
      )
    return { a: half(0), b: half(even), weatherA: row, weatherB: runs + row }
  }
}

function player({ ensemble, rechargeable }: MattersProblem): Play {
  const { outpost, seed, stepsPerHour, years, cutDay } = ensemble
  const shapes = dayShapes(outpost.place, stepsPerHour)
  const generator = prepareGenerator(outpost.place.climate)
  const planeFor = remember(planeOf, ({ tilt_deg, azimuth_deg }) => `${tilt_deg} ${azimuth_deg}`)
  const tabler = remember(tablePanel, (...given) => JSON.stringify(given))
  const skyFor = remember(
    (weather: number, { place }: Outpost<number>) => {
      const sky = drawnSky(generator, shapes, onGround(planeFor(place, shapes), place))
      sky.start(stream(seed, weather, PURPOSE.weather))
      return new KeptSky(sky)
    },
    (weather, { place }) => `${weather} ${place.tilt_deg} ${place.azimuth_deg} ${place.albedo}`,
  )
  return (shares, weather, mend) => {
    const unmended = drawn(outpost, inTurn(shares))
    const design = mend === null ? unmended : mend.apply(unmended)
    const rows = wakesOf(design.wake, design.place, ensemble)
    const plan = compilePlan(design, rows, 3600 / stepsPerHour, tabler)
    const sky = skyFor(weather, design)
    sky.start()
    const horizon = { years, cutDay, flashLife_days: flashLife_days(design.wake, rows[0].wakesPerDay) }
    if (rechargeable) {
      const { lowestState, survived } = winterOf(plan, sky, horizon)
      return { value: lowestState, survived }
    }
    const life_days = lifeOf(plan, sky, horizon)
    return { value: life_days, survived: life_days >= years * 365 }
  }
}

/** `drawn` asks for the numbers in the order of `mattersInputs`; what it asks for after the last is at its middle. */
function inTurn(shares: Float64Array): Probabilities {
  let next = 0
  return () => (next < shares.length ? shares[next++] : 0.5)
}
