/** Builds of a device in a brook, on a bench where it sleeps for 5 s only: sense 5 mA, send 40 mA, perhaps idle 14 mA. */
import type { MadeUpPlan, MadeUpVisit } from '../src/recording/made-up.ts'

export interface Build {
  readonly rest_A: number
  readonly send_s: number
  /** Awake with nothing to do after sending; 0 where it goes to sleep at once. */
  readonly idle_s: number
}

export function planOfBuild({ rest_A, send_s, idle_s }: Build): MadeUpPlan {
  const visits: MadeUpVisit[] = [{ state: 0, duration_s: 3 }]
  const wakes: { visit: number; odd: null }[] = []
  for (let k = 0; k < 12; k++) {
    wakes.push({ visit: visits.length, odd: null })
    visits.push({ state: 1, duration_s: 0.3 }, { state: 2, duration_s: send_s })
    if (idle_s > 0) visits.push({ state: 3, duration_s: idle_s })
    visits.push({ state: 0, duration_s: 5 })
  }
  const levels_A = [rest_A, 5e-3, 40e-3, ...(idle_s > 0 ? [14e-3] : [])]
  return {
    interval_s: 2e-3,
    levels_A,
    visits,
    wakes,
    noise: levels_A.map(() => 0.02),
    correlation: 0,
    drift: { rise: 0, wave: 0 },
    hum: null,
    ripple: null,
    bursts: null,
    digit_A: null,
  }
}
