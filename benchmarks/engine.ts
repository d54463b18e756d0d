/**
 * The engine: a thousand weather-years of hourly steps, beside the same step function in C and in NumPy, which must end in
 * the same states.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { stream } from '../src/numeric/random.ts'
import { compilePlan } from '../src/outlook/compile.ts'
import { atBest } from '../src/outlook/draw.ts'
import { wakesOf } from '../src/outlook/ensemble.ts'
import type { Plan } from '../src/outlook/plan.ts'
import { onGround, planeOf } from '../src/outlook/plane.ts'
import { drawnSky } from '../src/outlook/sky-source.ts'
import { initialState } from '../src/outlook/state.ts'
import { advance } from '../src/outlook/step.ts'
import { readOutpost } from '../src/outpost/file/read.ts'
import { DAYS, HOURS } from '../src/sky/calendar.ts'
import { dayShapes } from '../src/sky/day-shape.ts'
import { prepareGenerator } from '../src/sky/generator.ts'
import { type FlatSky, flatState, writeFlat } from './engine/flatten.ts'
import { interleaved, row, seconds } from './measure.ts'

const EXAMPLE = 'examples/fjord-tide-hut.outpost.yaml'
const YEARS = 1000
const ROUNDS = 5
const SAME = 1e-9

/** Threads load the built files, so the bench does too. */
const built = (path: string) => new URL(`../dist/${path}`, import.meta.url).href

export async function engineBench(): Promise<void> {
  console.log(`\nEngine: ${EXAMPLE}, hourly steps`)
  await wholeEngine()
  const folder = mkdtempSync(join(tmpdir(), 'overwinter-bench-'))
  try {
    await twins(folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Weather, panel and cell together, on worker threads, as the forecast runs it. */
async function wholeEngine(): Promise<void> {
  const { ensemblePool }: typeof import('../src/workbench/ensemble-pool.ts') = await import(
    built('workbench/ensemble-pool.js')
  )
  const { ensembleOf }: typeof import('../src/outlook/ensemble.ts') = await import(
    built('outlook/ensemble.js')
  )
  const ensemble = ensembleOf(steady().outpost, {
    years: 10,
    runs: YEARS / 10,
    seed: 1,
    stepsPerHour: 1,
    cutDay: 181,
    calendarYear: 2027,
  })
  const playing = (runs: number, threads: number) => () =>
    seconds(async () => {
      const pool = ensemblePool({ threads })
      await pool.play({ ...ensemble, runs })
      await pool.close()
    })
  const names = ['one thread', 'two threads'] as const
  const timed = await interleaved(3, {
    [names[0]]: playing(ensemble.runs, 1),
    [names[1]]: playing(ensemble.runs, 2),
    [`${names[0]}, five times as many`]: playing(5 * ensemble.runs, 1),
    [`${names[1]}, five times as many`]: playing(5 * ensemble.runs, 2),
  })
  for (const [i, name] of names.entries()) {
    const further_s = (timed[i + 2].best_s - timed[i].best_s) / 4
    row(
      `${YEARS} weather-years, all of it, ${name}`,
      `${timed[i].best_s.toFixed(2)} s`,
      `${further_s.toFixed(2)} s for each further`,
    )
  }
}

/** The step function alone, on one core, over the same light and air. */
async function twins(folder: string): Promise<void> {
  const { plan, sky } = prepared()
  const planFile = join(folder, 'plan.bin')
  writeFlat(planFile, plan, sky)
  const ours = () =>
    sky.light.map((light, run) => {
      const state = initialState(plan)
      advance(plan, state, light, sky.air[run], 0)
      return flatState(state)
    })
  const contenders: Record<string, () => number | Promise<number>> = { ours: () => seconds(ours) }
  const c = buildC(folder)
  if (c === null) console.log('  (no C compiler here: the twin in C is left out)')
  else contenders.C = () => Number(execFileSync(c, [planFile, join(folder, 'c.bin')], { encoding: 'utf8' }))
  const timed = await interleaved(ROUNDS, contenders)
  const own = timed[0].best_s
  row(
    `step function alone, ${YEARS} years, one core`,
    `${own.toFixed(2)} s`,
    `${((own / YEARS / HOURS) * 1e9).toFixed(0)} ns a step`,
  )
  const states = ours()
  for (const { name, best_s } of timed.slice(1)) {
    row(`  the same in ${name}`, `${best_s.toFixed(2)} s`, `ours ÷ ${name} ${(own / best_s).toFixed(2)}`)
    row(`  largest difference of end states to ${name}, relative`, agree(states, join(folder, 'c.bin')))
  }
  const python = withNumpy()
  if (python === null) console.log('  (no Python with NumPy here: that twin is left out)')
  else {
    const numpy_s = Number(
      execFileSync(python, ['benchmarks/engine/step.py', planFile, join(folder, 'numpy.bin')], {
        encoding: 'utf8',
      }),
    )
    row(
      '  the same in NumPy, vectorised over the years',
      `${numpy_s.toFixed(2)} s`,
      `NumPy ÷ ours ${(numpy_s / own).toFixed(1)}`,
    )
    row('  largest difference of end states to NumPy, relative', agree(states, join(folder, 'numpy.bin')))
  }
}

/** The example without its thrift table, which the twins do not know. */
function steady() {
  const read = readOutpost(readFileSync(EXAMPLE, 'utf8'))
  if (!read.ok) throw new Error(`${EXAMPLE} does not read`)
  const { outpost } = read
  return {
    outpost: { ...outpost, wake: { ...outpost.wake, cadence: { ...outpost.wake.cadence, thrift: [] } } },
  }
}

function prepared(): { plan: Plan; sky: FlatSky } {
  const design = atBest(steady().outpost)
  const { place } = design
  const plan = compilePlan(design, wakesOf(design.wake, place, { calendarYear: 2027, stepsPerHour: 1 }), 3600)
  const shapes = dayShapes(place, 1)
  const source = drawnSky(prepareGenerator(place.climate), shapes, onGround(planeOf(place, shapes), place))
  const light: Float64Array[] = []
  const air: Float64Array[] = []
  for (let year = 0; year < YEARS; year++) {
    const ofYear = { light: new Float64Array(HOURS), air: new Float64Array(HOURS) }
    source.start(stream(1, year, 2))
    for (let day = 0; day < DAYS; day++)
      source.day(
        day,
        ofYear.light.subarray(24 * day, 24 * day + 24),
        ofYear.air.subarray(24 * day, 24 * day + 24),
      )
    light.push(ofYear.light)
    air.push(ofYear.air)
  }
  return { plan, sky: { light, air } }
}

function buildC(folder: string): string | null {
  const out = join(folder, 'step')
  const flags = ['-O3', '-std=c11', '-D_POSIX_C_SOURCE=200809L', '-ffp-contract=off']
  const built = spawnSync('cc', [...flags, '-o', out, 'benchmarks/engine/step.c', '-lm'])
  return built.status === 0 ? out : null
}

function withNumpy(): string | null {
  return (
    ['python3', '/usr/bin/python3'].find(
      (python) => spawnSync(python, ['-c', 'import numpy']).status === 0,
    ) ?? null
  )
}

function agree(states: number[][], file: string): string {
  const theirs = new Float64Array(Uint8Array.from(readFileSync(file)).buffer)
  let worst = 0
  for (const [run, state] of states.entries())
    for (const [k, value] of state.entries()) {
      const other = theirs[run * state.length + k]
      worst = Math.max(worst, Math.abs(value - other) / Math.max(1, Math.abs(value)))
    }
  if (!(worst <= SAME)) throw new Error(`end states differ by ${worst}, more than ${SAME}`)
  return worst.toExponential(1)
}
