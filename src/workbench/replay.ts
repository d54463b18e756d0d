/** A weather year's own days, played in their order: one draw of what the fitted climate could have brought. */
import { compilePlan } from '../outlook/compile.ts'
import { atBest } from '../outlook/draw.ts'
import { type Ensemble, wakesOf } from '../outlook/ensemble.ts'
import { onGround, planeOf } from '../outlook/plane.ts'
import { replayedSky } from '../outlook/sky-source.ts'
import { initialState } from '../outlook/state.ts'
import { advance } from '../outlook/step.ts'
import type { Replay } from '../report/forecast.ts'
import { DAYS } from '../sky/calendar.ts'
import { dayShapes } from '../sky/day-shape.ts'
import type { WeatherYear } from '../sky/place.ts'

/**
 * The design at its best values through the year twice over, from the cut on; the second time round counts, when the
 * charge at the start no longer matters.
 */
export function replayOf(ensemble: Ensemble, year: WeatherYear): Replay {
  const { stepsPerHour, cutDay } = ensemble
  const design = atBest(ensemble.outpost)
  const plan = compilePlan(design, wakesOf(design.wake, design.place, ensemble), 3600 / stepsPerHour)
  const sky = replayedSky(
    year,
    onGround(planeOf(design.place, dayShapes(design.place, stepsPerHour)), design.place),
  )
  const state = initialState(plan)
  const perDay = 24 * stepsPerHour
  const light = new Float64Array(perDay)
  const air = new Float64Array(perDay)
  let lowest = { state: 2, day: 0 }
  let downBefore = 0
  for (let day = 0; day < 2 * DAYS; day++) {
    const ofYear = (cutDay + day) % DAYS
    if (day === DAYS) downBefore = state.downSteps
    sky.day(ofYear, light, air)
    state.lowestState = 1
    advance(plan, state, light, air, ofYear * perDay)
    if (day >= DAYS && state.lowestState < lowest.state) lowest = { state: state.lowestState, day: ofYear }
  }
  const downHours = (state.downSteps - downBefore) / stepsPerHour
  return {
    title: year.title,
    alive: downHours === 0,
    downHours,
    lowestState: lowest.state,
    lowestDay: lowest.day,
  }
}
