/** Each example for thirty days, every single wake played out, beside the hourly engine: the same charge within 0.5 %. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { stream } from '../src/numeric/random.ts'
import { compilePlan } from '../src/outlook/compile.ts'
import { atBest } from '../src/outlook/draw.ts'
import { playEvents } from '../src/outlook/event-by-event.ts'
import { onGround, planeOf } from '../src/outlook/plane.ts'
import { drawnSky } from '../src/outlook/sky-source.ts'
import { initialState } from '../src/outlook/state.ts'
import { advance } from '../src/outlook/step.ts'
import { readOutpost } from '../src/outpost/file/read.ts'
import { dayShapes } from '../src/sky/day-shape.ts'
import { prepareGenerator } from '../src/sky/generator.ts'
import { expectedWakes } from '../src/wake/expected-wakes.ts'
import { timesOfYear } from '../src/wake/local-times.ts'

const DAYS = 30
const START_DAY = 90
const WITHIN = 0.005
/** Chances, retries and events scatter; the mean of so many paths does so by less than the tolerance. */
const MOST_PATHS = 60

const examples = readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml'))

describe('wake by wake and hour by hour', () => {
  it.each(examples)('%s', (name) => {
    const read = readOutpost(readFileSync(join('examples', name), 'utf8'))
    if (!read.ok) throw new Error(`${name} does not read`)
    const design = atBest(read.outpost)
    const { place, wake } = design
    const shapes = dayShapes(place, 1)
    const sky = drawnSky(prepareGenerator(place.climate), shapes, onGround(planeOf(place, shapes), place))
    const light_W_m2 = new Float64Array(24 * DAYS)
    const air_C = new Float64Array(24 * DAYS)
    sky.start(stream(3, 0, 2))
    for (let day = 0; day < DAYS; day++)
      sky.day(
        START_DAY + day,
        light_W_m2.subarray(24 * day, 24 * day + 24),
        air_C.subarray(24 * day, 24 * day + 24),
      )
    const { schedule } = wake.cadence
    const times =
      schedule?.kind === 'times-of-day'
        ? timesOfYear(schedule.times, schedule.zone, place.zone_h, 2027)
        : null

    const plan = compilePlan(design, expectedWakes(wake, times, 3600), 3600)
    const fast = initialState(plan)
    advance(plan, fast, light_W_m2, air_C, 24 * START_DAY)
    expect(fast.downSteps).toBe(0)

    let out_C = 0
    let square = 0
    let paths = 0
    let scatter = Infinity
    // As many paths as it takes for their mean to be known to a third of the tolerance.
    while (paths < MOST_PATHS && (paths < 3 || scatter > WITHIN / 3)) {
      const one = playEvents(design, { light_W_m2, air_C }, START_DAY, times, stream(3, paths, 3)).out_C
      out_C += one
      square += one * one
      paths++
      const mean = out_C / paths
      scatter = Math.sqrt(Math.max(0, square / paths - mean * mean) / Math.max(paths - 1, 1)) / mean
    }
    expect(scatter).toBeLessThan(WITHIN / 2)
    expect(Math.abs(fast.out_C / (out_C / paths) - 1)).toBeLessThan(WITHIN)
  })
})
