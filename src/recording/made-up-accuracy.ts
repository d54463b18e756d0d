/** The table of docs/accuracy.md: what was found in made-up recordings against what is true of them. */
import type { InstrumentRange } from './instrument.ts'
import { chargeUncertainty, meanUncertainty } from './instrument-uncertainty.ts'
import { type MadeUpPlan, makeUp } from './made-up.ts'
import { madeUpPlan } from './made-up-plan.ts'
import { type Score, score } from './made-up-score.ts'
import { analyse } from './states.ts'
import { samplesOf } from './states-samples.ts'

export const ACCURACY_SEED = 1
export const ACCURACY_CASES = 200

/** A line of the table and what its sums need. */
export interface AccuracyRow {
  readonly line: string
  readonly score: Score
  /** Relative standard uncertainty of the charge that the rounding leaves. */
  readonly chargeU: number
}

export function accuracyRow(number: number): AccuracyRow {
  const plan = madeUpPlan(ACCURACY_SEED, number)
  const madeUp = makeUp(plan, ACCURACY_SEED, number)
  const analysis = analyse(samplesOf(madeUp.current_A, madeUp.interval_s))
  const range = rangeOf(plan)
  const result = score(madeUp, analysis, (state) => meanUncertainty(range, state).combined_A)
  const parts = analysis.states.map((state) => ({
    range,
    sampled: { ...state, u_A: 0 },
    time_s: state.time_s,
  }))
  const chargeU = chargeUncertainty(parts).u_C / madeUp.truth.charge_C
  return { line: lineOf(number, plan, result, chargeU), score: result, chargeU }
}

/** An instrument that only rounds. */
function rangeOf({ digit_A }: MadeUpPlan): InstrumentRange {
  return {
    name: 'made up',
    fullScale_A: 1,
    digit_A: digit_A ?? 0,
    accuracyOfReading: 0,
    accuracyDigits: 0,
    accuracyOffset_A: 0,
    burden_Ohm: 0,
    bandwidth_Hz: null,
  }
}

const COVERAGE = 2
const MEAN_WITHIN = 0.01
const CHARGE_WITHIN = 1e-4

const meanError = ({ true_A, found_A }: Score['states'][number]) => Math.abs(found_A / true_A - 1)
const withinStated = ({ true_A, found_A, u_A }: Score['states'][number]) =>
  Math.abs(found_A - true_A) <= COVERAGE * u_A
const meanGood = (state: Score['states'][number]) => meanError(state) <= MEAN_WITHIN || withinStated(state)

function lineOf(number: number, plan: MadeUpPlan, result: Score, chargeU: number): string {
  const { hum, bursts, ripple, drift, digit_A, correlation } = plan
  const conditions = [
    hum && `hum ${percent(hum.amplitude_A / plan.levels_A[0], 0)}`,
    bursts && 'bursts',
    ripple && 'ripple',
    (drift.rise !== 0 || drift.wave !== 0) && 'drift',
    digit_A !== null && `digit 1/${Math.round(plan.levels_A[0] / digit_A)}`,
    correlation > 0 && `ρ ${correlation.toFixed(1)}`,
  ].filter((condition) => typeof condition === 'string')
  const worst = Math.max(...result.states.map(meanError))
  const good = result.states.filter(meanGood).length
  return `| ${[
    number,
    `${result.statesFound} of ${plan.levels_A.length}`,
    percent(Math.max(...plan.noise), 1),
    conditions.join(', ') || '–',
    percent(worst, 2),
    `${good} of ${result.states.length}`,
    `${result.changesWithin} of ${result.changes}`,
    result.changesExtra,
    `${result.wakesFound} of ${result.wakes}`,
    `${percent(Math.abs(result.chargeErrorFlowed), 4)}${digit_A === null ? '' : ` (u ${percent(chargeU, 4)})`}`,
  ].join(' | ')} |`
}

const percent = (share: number, decimals: number): string => `${(100 * share).toFixed(decimals)} %`

export const ACCURACY_HEAD = [
  '| case | states found | noise up to | with | worst mean | means good | changes found | changes that are none | wakes found | charge that flowed |',
  '| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |',
].join('\n')

/** What was asked for, what was reached, as a table. */
export function accuracySummary(rows: readonly AccuracyRow[]): string {
  const scores = rows.map((row) => row.score)
  const sum = (of: (each: Score) => number) => scores.reduce((total, each) => total + of(each), 0)
  const states = scores.flatMap((each) => each.states)
  const exact = scores.filter(({ wakes, wakesFound }) => wakes === wakesFound).length
  const continuous = rows.filter(({ chargeU }) => chargeU === 0)
  const rounded = rows.filter(({ chargeU }) => chargeU > 0)
  const flowed = ({ score: { chargeErrorFlowed } }: AccuracyRow) => Math.abs(chargeErrorFlowed)
  const within = (of: readonly AccuracyRow[]) => of.filter((row) => flowed(row) <= CHARGE_WITHIN).length
  const stated = rounded.filter(
    (row) => flowed(row) <= Math.max(CHARGE_WITHIN, COVERAGE * row.chargeU),
  ).length
  const worstRead = Math.max(...scores.map(({ chargeErrorRead }) => Math.abs(chargeErrorRead)))
  const count = (good: number, all: number) => `${good} of ${all} (${percent(good / all, 2)})`
  const lines: [string, string, string][] = [
    [
      'state means within 1 % or the stated uncertainty (k = 2)',
      'every one',
      count(states.filter(meanGood).length, states.length),
    ],
    [
      '· within the stated uncertainty (k = 2) alone',
      '95 %',
      count(states.filter(withinStated).length, states.length),
    ],
    [
      'changes found to within 2 samples',
      '98 %',
      count(
        sum((s) => s.changesWithin),
        sum((s) => s.changes),
      ),
    ],
    ['· changes found that are none', '–', `${sum((s) => s.changesExtra)}`],
    ['recordings with the exact count of wakes', '98 %', count(exact, scores.length)],
    [
      '· with the exact count of states',
      '–',
      count(
        rows.filter(({ line, score: s }) => line.includes(`| ${s.statesFound} of ${s.statesFound} |`)).length,
        scores.length,
      ),
    ],
    ['charge of the samples as read, largest error', '0.01 %', `${(100 * worstRead).toExponential(0)} %`],
    [
      'charge that flowed within 0.01 %, reading without digits',
      'every one',
      count(within(continuous), continuous.length),
    ],
    [
      'charge that flowed within 0.01 %, reading rounded to a digit',
      'every one',
      count(within(rounded), rounded.length),
    ],
    ['· within 0.01 % or what rounding leaves unknown (k = 2)', '95 %', count(stated, rounded.length)],
    [
      'wakes that went wrong and are called odd',
      '–',
      count(
        sum((s) => s.oddFound),
        sum((s) => s.odd),
      ),
    ],
    [
      'wakes that went well and are called odd',
      '–',
      count(
        sum((s) => s.plainCalledOdd),
        sum((s) => s.plain),
      ),
    ],
  ]
  return [
    '| what | asked | reached |',
    '| --- | --- | --- |',
    ...lines.map((line) => `| ${line.join(' | ')} |`),
  ].join('\n')
}
