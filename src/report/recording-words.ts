/** What a reading says in words: times, currents, odd wakes, flaws and the verdict. */
import { formatQuantity, inUnit, unitFor } from '../quantity/format.ts'
import { formatUncertain } from '../quantity/format-uncertain.ts'
import { formatMeasured } from '../quantity/measured.ts'
import type { Uncertain } from '../quantity/uncertain.ts'
import type { Oddity } from '../recording/cycle.ts'
import type { FlawKind, FlawTotal } from '../recording/recording.ts'
import type { ChargeReading, RecordingReading, StateReading } from './recording-reading.ts'

/** `8.42 s`, `3 min 8.4 s`, `2 h 3 min 8 s`: a place in a recording, to a hundredth at its start. */
export function placeInTime(time_s: number): string {
  if (time_s < 60) return `${Number(time_s.toFixed(2))} s`
  const digits = time_s < 3600 ? 1 : 0
  const rounded = Number(time_s.toFixed(digits))
  const parts = [
    [Math.floor(rounded / 3600), 'h'],
    [Math.floor((rounded % 3600) / 60), 'min'],
    [Number((rounded % 60).toFixed(digits)), 's'],
  ] as const
  return parts
    .filter(([number]) => number > 0)
    .map(([number, unit]) => `${number} ${unit}`)
    .join(' ')
}

export const duration = (time_s: number): string =>
  time_s < 60 ? formatQuantity(time_s, 'duration', { digits: 3 }) : placeInTime(time_s)

export const percent = (share: number): string => `${(100 * share).toFixed(1)} %`

/** The current of a state; where the instrument read zero, the limit that this puts on it. */
export function currentInWords(current: Uncertain): string {
  if (current.kind === 'normal') return formatMeasured(current.value, current.u, 'current')
  return current.kind === 'exact'
    ? formatQuantity(current.value, 'current', { digits: 4 })
    : formatUncertain(current, 'current')
}

/** In coulombs also where a cell would be told in ampere-hours: a wake is. */
export function chargeInWords({ charge_C, u_C }: ChargeReading): string {
  const unit = unitFor(Math.min(Math.abs(charge_C), 3), 'charge')
  return u_C === null ? inUnit(charge_C, unit, 4) : formatMeasured(charge_C, u_C, 'charge', unit)
}

/** `B C`, in order. */
export const namesOf = (states: readonly StateReading[], sequence: readonly number[]): string =>
  sequence.map((state) => states[state].name).join(' ')

export function oddityInWords(oddity: Oddity, states: readonly StateReading[]): string {
  switch (oddity.kind) {
    case 'repeated':
      return `went through ${namesOf(states, oddity.states)} again: a retry`
    case 'longer':
    case 'shorter':
      return `${states[oddity.state].name} lasted ${duration(oddity.lasted_s)} instead of ${duration(oddity.usual_s)}`
    case 'truncated':
      return `ended early: ${namesOf(states, oddity.states)} did not come`
    case 'extra':
      return `${namesOf(states, oddity.states)} came besides what a wake usually does`
    case 'lacking':
      return `${namesOf(states, oddity.states)} did not come`
    case 'missed':
      return oddity.wakes === 1 ? 'the next wake did not come' : `the next ${oddity.wakes} wakes did not come`
  }
}

/** What the instrument did to what it measured, where that can be seen: at most a sentence of each kind. */
export function instrumentInWords(told: Told): string[] {
  return [...beyondInWords(told), ...burdenSentence(told.states), ...pulseSentence(told.states)]
}

/** States that the instrument cannot have measured as it was stated, and what that leaves unknown. */
export function beyondInWords({ states, instrument }: Pick<Told, 'states' | 'instrument'>): string[] {
  const beyond = instrument === null ? [] : states.filter(({ range }) => range === null)
  if (beyond.length === 0) return []
  const names = beyond.map(({ name }) => name).join(' and ')
  return [
    `${names}: beyond every range of the instrument. How far off it is there is not known: behind ± of ${names} stands scatter alone, and no ± is told of charges.`,
  ]
}

const LEAST_SHIFT = 1e-3
const SEEN_WHOLE = 0.99

/** Where its burden shifts the current most. */
function burdenSentence(states: readonly StateReading[]): string[] {
  const shift = ({ burden, mean_A }: StateReading) =>
    burden === null ? 0 : Math.abs(burden.ifResistance.shift_A / mean_A)
  const most = states.reduce((a, b) => (shift(b) > shift(a) ? b : a))
  if (most.burden === null || shift(most) < LEAST_SHIFT) return []
  const { ifResistance, ifConstantPower } = most.burden
  const drop = formatQuantity(ifResistance.drop_V, 'voltage', { digits: 2 })
  const amount = (current_A: number) => formatQuantity(Math.abs(current_A), 'current', { digits: 2 })
  return [
    `In ${most.name} the instrument takes ${drop} of the supply: without it a resistive load would draw ${amount(ifResistance.shift_A)} more, a switching converter ${amount(ifConstantPower.shift_A)} less.`,
  ]
}

/** Which state is too short for its bandwidth. */
function pulseSentence(states: readonly StateReading[]): string[] {
  const seen = ({ heightSeen }: StateReading) => heightSeen ?? 1
  const least = states.reduce((a, b) => (seen(b) < seen(a) ? b : a))
  if (least.dwell === null || seen(least) > SEEN_WHOLE) return []
  return [
    `${least.name} lasts ${duration(least.dwell.median_s)}, and of a pulse so short the instrument shows ${Math.round(100 * seen(least))} % of its height.`,
  ]
}

const LEFT_OUT = 'wakes and cycles that lost more than a moment by it are left out'

type FlawWords = readonly [one: string, many: string, meaning: string, effect: string]

const FLAW_WORDS: Readonly<Record<FlawKind, FlawWords>> = {
  gap: ['gap', 'gaps', 'nothing was measured', LEFT_OUT],
  dropped: ['dropped stretch', 'dropped stretches', 'an even clock left samples out', LEFT_OUT],
  'not-a-number': [
    'place without a number',
    'places without a number',
    'empty, overloaded or not a number',
    LEFT_OUT,
  ],
  'clock-backwards': [
    'step back of the clock',
    'steps back of the clock',
    'later times were moved on',
    'periods across it may be wrong',
  ],
  saturated: [
    'clipped stretch',
    'clipped stretches',
    'the range ended: the true current was higher',
    'charge is too low',
  ],
  'damaged-line': ['damaged line', 'damaged lines', 'no sample could be read', LEFT_OUT],
}

export function flawInWords({ kind, places, count, duration_s }: FlawTotal): string {
  const [one, many, meaning] = FLAW_WORDS[kind]
  const sized =
    kind === 'damaged-line' || kind === 'clock-backwards'
      ? ''
      : `, ${count} ${count === 1 ? 'sample' : 'samples'}`
  const lasting = duration_s > 0 ? `, ${duration(duration_s)}` : ''
  return `${places} ${places === 1 ? one : many}${sized}${lasting}: ${meaning}`
}

/** What is wrong with a recording and what that does to the numbers, a sentence for each kind. */
export const flawSentences = (file: string, totals: readonly FlawTotal[]): string[] =>
  totals.map((total) => `${file} has ${flawInWords(total)}; ${FLAW_WORDS[total.kind][3]}.`)

type Told = Omit<RecordingReading, 'verdict'>

/** A few sentences: rhythm and charge of a cycle, what it draws at rest, what is odd, missing or the wrong way round. */
export function readingVerdict(reading: Told): string {
  return [rhythm(reading), oddWakes(reading), missing(reading), reversed(reading)]
    .filter((s) => s !== '')
    .join(' ')
}

function rhythm(reading: Told): string {
  const { cycles, states, cycleCharge, span } = reading
  const { period_s, charge_C, list } = cycles
  if (cycles.rest === null)
    return isSteady(reading)
      ? `A steady ${currentInWords(states[0].current)} for ${duration(span.duration_s)}; no wakes.`
      : restless(reading)
  const rest = `at rest it draws ${currentInWords(states[cycles.rest].current)}`
  if (period_s !== null && cycleCharge !== null)
    return `It wakes every ${duration(period_s.median)} and a cycle takes ${chargeInWords(cycleCharge)}; ${rest}.`
  const count = ['No whole wake', 'One wake'][list.length] ?? `${list.length} wakes`
  const wakes = `${count} in ${duration(span.duration_s)}`
  if (list.length < 2) return `${wakes}; ${rest}.`
  if (period_s === null || charge_C === null) return `${wakes}, and no cycle without lost time; ${rest}.`
  const one = { charge_C: charge_C.mean, u_C: null }
  return `${wakes}; the one whole cycle lasts ${duration(period_s.mean)} and takes ${chargeInWords(one)}; ${rest}.`
}

/** A scatter below this share of the mean is no matter, whatever it comes from. */
const LITTLE_SCATTER = 0.2
/** Noise scatters at most so many times as much as its neighbouring samples show. */
const MOST_NOISE = 3
/** Of a normal law the deviation is 0.30 of the range from 5 % to 95 %, of a sine 0.36; and mean and median are alike. */
const WIDEST = 0.4
const MOST_SKEW = 0.3

/** Whether a single state is one level with noise about it, and not wakes that come and go within a few samples. */
function isSteady({ states: [state], quantiles_A: [p5, median, p95] }: Told): boolean {
  const { mean_A, deviation_A, noise_A } = state
  if (deviation_A <= LITTLE_SCATTER * Math.abs(mean_A)) return true
  if (deviation_A > MOST_NOISE * noise_A || p5 === null || median === null || p95 === null) return false
  return deviation_A <= WIDEST * (p95 - p5) && Math.abs(mean_A - median) <= MOST_SKEW * deviation_A
}

function restless({ states: [state], quantiles_A: [, median], span }: Told): string {
  const current = (value: number) => formatQuantity(value, 'current', { digits: 3 })
  const half = median === null ? '' : `, half of the time below ${current(median)}`
  return `The current keeps to no level: ${currentInWords(state.current)} on average over ${duration(span.duration_s)}${half}, at most ${current(state.max_A)}. Wakes of fewer than three samples are not told apart: sample faster to see them.`
}

function oddWakes({ cycles }: Told): string {
  const odd = cycles.list.filter((cycle) => cycle.odd.length > 0).length
  if (odd === 0) return ''
  return `${odd} of ${cycles.list.length} wakes ${odd === 1 ? 'is' : 'are'} odd.`
}

function missing({ span, flawTotals }: Told): string {
  const clipped = flawTotals.some(({ kind }) => kind === 'saturated')
  const lost = span.missing_s > 0 ? `${duration(span.missing_s)} of it are not known` : ''
  if (clipped)
    return `The range ended below the highest currents${lost === '' ? '' : `, and ${lost}`}: charge is too low.`
  return lost === '' ? '' : `${lost[0].toUpperCase()}${lost.slice(1)}, and no charge is made up for them.`
}

function reversed({ span }: Told): string {
  return span.charge_C < 0 ? 'More charge flows back than out: are the leads swapped?' : ''
}
