/**
 * The demonstration recordings under examples/recordings, made up so that their truth is known: the device of
 * examples/avalanche-snow-depth.outpost.yaml on a bench, its hour of rest cut to 15 s. Build 42 forgot to switch off the
 * ranger's supply (rest) and waits for an answer that never comes (listen in vain).
 */
import type { MadeUpPlan, MadeUpVisit } from '../src/recording/made-up.ts'
import { makeUp } from '../src/recording/made-up.ts'

interface Build {
  readonly name: string
  readonly seed: number
  readonly rest_A: number
  /** What follows the sending in every wake; build 41 goes to sleep at once. */
  readonly afterSending: readonly MadeUpVisit[]
  /** Samples that the logger lost, and one in whose place it wrote a word; null for a clean log. */
  readonly damage: { readonly lostFrom: number; readonly lost: number; readonly overrun: number } | null
}

export const BUILDS: readonly Build[] = [
  { name: 'snow-depth-build-41', seed: 41, rest_A: 3.1e-6, afterSending: [], damage: null },
  {
    name: 'snow-depth-build-42',
    seed: 42,
    rest_A: 8.4e-6,
    afterSending: [{ state: 4, duration_s: 0.9 }],
    damage: { lostFrom: 20_000, lost: 150, overrun: 31_234 },
  },
]

const STATES = ['rest', 'measure air', 'measure depth', 'send', 'listen in vain']
const RATE_HZ = 250
const WAKES = 12
const REST_S = 15
/** In this wake nobody answers at first: it sends again after a back-off. */
const RETRIED = 7

function planOf({ rest_A, afterSending }: Build): MadeUpPlan {
  const visits: MadeUpVisit[] = [{ state: 0, duration_s: 6.2 }]
  const wakes: { visit: number; odd: 'back-off' | null }[] = []
  for (let k = 0; k < WAKES; k++) {
    wakes.push({ visit: visits.length, odd: k === RETRIED ? 'back-off' : null })
    const unlike = 1 + 0.02 * Math.sin(2.4 * k)
    const send = { state: 3, duration_s: 0.33 * unlike }
    const again = k === RETRIED ? [send, { state: 0, duration_s: 1 }] : []
    visits.push({ state: 2, duration_s: 0.45 * unlike }, { state: 1, duration_s: 0.06 })
    visits.push(...again, send, ...afterSending, { state: 0, duration_s: REST_S * (2 - unlike) })
  }
  const levels_A = [rest_A, 1.2e-3, 18e-3, 43e-3, 10.5e-3]
  return {
    interval_s: 1 / RATE_HZ,
    levels_A: afterSending.length > 0 ? levels_A : levels_A.slice(0, 4),
    visits,
    wakes,
    noise: [0.08, 0.03, 0.02, 0.02, 0.02],
    correlation: 0,
    drift: { rise: 0, wave: 0 },
    hum: null,
    ripple: null,
    bursts: null,
    digit_A: 0.1e-6,
  }
}

export interface Demo {
  readonly csv: string
  /** As JSON, for the file beside it. */
  readonly truth: string
}

/** One recording as a logger writes it, and its truth: means in A, first samples of wakes, charge in C. */
export function demoRecording(build: Build): Demo {
  const plan = planOf(build)
  const { current_A, interval_s, truth } = makeUp(plan, build.seed, 0)
  const lines = Array.from(
    current_A,
    (x, i) => `${(i * interval_s).toFixed(3)},${Number((1e3 * x).toPrecision(7))}`,
  )
  const { damage } = build
  if (damage !== null) {
    lines[damage.overrun] = 'overrun'
    lines.splice(damage.lostFrom, damage.lost)
  }
  return {
    csv: `time (s),current (mA)\n${lines.join('\n')}\n`,
    truth: `${JSON.stringify(
      {
        rate_Hz: RATE_HZ,
        states: truth.means_A.map((mean_A, k) => ({ name: STATES[k], mean_A })),
        wakes: [...truth.wakes],
        sendsAgainIn: RETRIED,
        charge_C: truth.charge_C,
        damage,
      },
      null,
      2,
    )}\n`,
  }
}
