/** The figures of a reading: the whole trace, all wakes over each other, the states' shares, charge per cycle. */
import * as Plot from '@observablehq/plot'
import { formatQuantity } from '../quantity/format.ts'
import type { Overlay } from '../recording/cycles-overlay.ts'
import type { View } from '../recording/view.ts'
import type { Figure } from './figure.ts'
import { histogramOf } from './recording-histogram.ts'
import type { RecordingReading, StateReading } from './recording-reading.ts'
import {
  chargeInWords,
  currentInWords,
  duration,
  namesOf,
  oddityInWords,
  percent,
  placeInTime,
} from './recording-words.ts'
import { drawSvg, INK } from './svg.ts'

const WIDTH = 720
const MARGIN = { marginLeft: 64, marginRight: 32, marginBottom: 42 }
const CHARGE_BINS = 30

/** Current on a logarithmic scale from `low` up; what is not above it lies on the axis. */
const currentScale = (low: number, high: number) => ({
  type: 'log' as const,
  domain: [low, high],
  clamp: true,
  label: '↑ current',
  tickFormat: (a: number) => formatQuantity(a, 'current', { digits: 1 }),
  ticks: 5,
  grid: true,
})

/** A little below the lowest state and above the highest sample. */
function currentEnds(states: readonly StateReading[], max_A: number | null): readonly [number, number] {
  const positive = states.map(({ mean_A }) => mean_A).filter((mean_A) => mean_A > 0)
  const high = 1.3 * Math.max(max_A ?? 0, ...positive)
  const low = Math.min(...positive, high / 10)
  return [low / 3, high]
}

export function traceFigure({ states, span }: RecordingReading, view: View): Figure {
  const [low, high] = currentEnds(states, span.max_A)
  const at = (k: number) => (k + 0.5) * view.bucket_s
  const points = Array.from(view.min_A, (min, k) => ({ t: at(k), min, max: view.max_A[k] })).map((p) =>
    Number.isNaN(p.min) ? { ...p, min: Number.NaN, max: Number.NaN } : { ...p, min: Math.max(p.min, low) },
  )
  const bands = states.map(({ name, mean_A, deviation_A }) => ({
    name,
    middle: mean_A,
    bottom: Math.max(mean_A - Math.max(2 * deviation_A, 0.05 * mean_A), low),
    top: mean_A + Math.max(2 * deviation_A, 0.05 * mean_A),
  }))
  const svg = drawSvg(
    {
      width: WIDTH,
      height: 300,
      ...MARGIN,
      x: { domain: [0, span.duration_s], label: 'seconds →' },
      y: currentScale(low, high),
      marks: [
        Plot.rectY(bands, { x1: 0, x2: span.duration_s, y1: 'bottom', y2: 'top', fill: INK.wide }),
        Plot.ruleX(points, { x: 't', y1: 'min', y2: 'max', stroke: INK.line, strokeWidth: 1 }),
        Plot.text(bands, {
          x: span.duration_s,
          y: 'middle',
          text: 'name',
          textAnchor: 'start',
          dx: 8,
          fill: INK.accent,
        }),
      ],
    },
    'Current over time, the whole recording',
  )
  return {
    id: 'trace',
    title: 'The whole trace',
    caption: `Lowest to highest sample of each of ${view.min_A.length} columns of ${duration(view.bucket_s)}, so that no spike is lost. The pale bands are the states, named at the right.`,
    svg,
    head: ['state', 'current', 'visits', 'lasts', 'time', 'of time', 'of charge'],
    rows: states.map((state) => [
      state.rests ? `${state.name}, at rest` : state.name,
      currentInWords(state.current),
      state.visits,
      state.dwell === null ? '–' : duration(state.dwell.median_s),
      duration(state.time_s),
      percent(state.timeShare),
      percent(state.chargeShare),
    ]),
  }
}

export function sharesFigure({ states }: RecordingReading): Figure {
  const bars = states.flatMap(({ name, timeShare, chargeShare }) => [
    { name, of: 'time', share: timeShare },
    { name, of: 'charge', share: chargeShare },
  ])
  const svg = drawSvg(
    {
      width: WIDTH,
      height: 50 + 24 * states.length,
      marginLeft: 32,
      fx: { label: null, domain: ['time', 'charge'], tickFormat: (of: string) => `share of ${of}` },
      x: { domain: [0, 1], label: null, tickFormat: (s: number) => `${Math.round(100 * s)} %`, ticks: 3 },
      y: { label: null, domain: states.map(({ name }) => name) },
      marks: [Plot.barX(bars, { fx: 'of', x: 'share', y: 'name', fill: INK.narrow })],
    },
    'Share of time and of charge of each state',
  )
  const most = states.reduce((a, b) => (b.chargeShare > a.chargeShare ? b : a))
  return {
    id: 'shares',
    title: 'Where time and charge go',
    caption: `${most.name}, at ${currentInWords(most.current)}, takes ${percent(most.chargeShare)} of the charge in ${percent(most.timeShare)} of the time.`,
    svg,
    head: ['state', 'of time', 'of charge'],
    rows: states.map(({ name, timeShare, chargeShare }) => [name, percent(timeShare), percent(chargeShare)]),
  }
}

/** Null where there is no wake. */
export function wakesFigure(
  { states, span, cycles }: RecordingReading,
  overlay: Overlay | null,
): Figure | null {
  if (overlay === null || cycles.typical === null) return null
  const [low, high] = currentEnds(states, span.max_A)
  const lines = overlay.current_A.flatMap((row, k) => {
    const odd = cycles.list[overlay.cycles[k]].odd.length > 0
    return Array.from(row, (x, column) => ({ wake: k, odd, t: column * overlay.step_s, x: Math.max(x, low) }))
  })
  const median = Array.from(overlay.median_A, (x, column) => ({ t: column * overlay.step_s, x }))
  const svg = drawSvg(
    {
      width: WIDTH,
      height: 280,
      ...MARGIN,
      x: { label: 'seconds since the wake →' },
      y: currentScale(low, high),
      marks: [
        Plot.line(
          lines.filter(({ odd }) => !odd),
          { x: 't', y: 'x', z: 'wake', stroke: INK.faint, strokeWidth: 0.6, strokeOpacity: 0.5 },
        ),
        Plot.line(
          lines.filter(({ odd }) => odd),
          { x: 't', y: 'x', z: 'wake', stroke: INK.accent, strokeWidth: 1, strokeDasharray: '4 2' },
        ),
        Plot.line(median, { x: 't', y: 'x', stroke: INK.line, strokeWidth: 1.8 }),
      ],
    },
    'Current of all wakes over each other',
  )
  const odd = cycles.list.filter((cycle) => cycle.odd.length > 0)
  const shown =
    overlay.cycles.length === cycles.list.length
      ? `All ${cycles.list.length} wakes`
      : `${overlay.cycles.length} of ${cycles.list.length} wakes`
  return {
    id: 'wakes',
    title: 'All wakes over each other',
    caption: `${shown} from their first rise on; the strong line is the median. The typical wake goes through ${namesOf(states, cycles.typical.sequence)} and comes ${cycles.typical.wakes} times; ${odd.length === 0 ? 'none is odd' : 'odd ones are dashed'}.`,
    svg,
    head: ['odd wake at', 'charge until the next', 'what is odd'],
    rows: odd.map(({ start_s, charge_C, odd: reasons }) => [
      placeInTime(start_s),
      charge_C === null ? '–' : chargeInWords({ charge_C, u_C: null }),
      reasons.map((reason) => oddityInWords(reason, states)).join('; '),
    ]),
  }
}

/** Null for too few cycles to have a distribution. */
export function cycleChargeFigure({ cycles, cycleCharge }: RecordingReading): Figure | null {
  const spread = cycles.charge_C
  const values = cycles.list.flatMap(({ charge_C }) => charge_C ?? [])
  const bins = histogramOf(values, CHARGE_BINS)
  if (spread === null || cycleCharge === null || bins === null) return null
  const step = (bins.high - bins.low) / CHARGE_BINS
  const bars = bins.counts.map((count, k) => ({
    low: bins.low + k * step,
    high: bins.low + (k + 1) * step,
    count,
  }))
  const words = (charge_C: number) => chargeInWords({ charge_C, u_C: null })
  const svg = drawSvg(
    {
      width: WIDTH,
      height: 220,
      ...MARGIN,
      x: {
        label: 'charge of a cycle →',
        tickFormat: (q: number) => formatQuantity(q, 'charge', { digits: 3 }),
        ticks: 5,
      },
      y: { label: '↑ cycles', grid: true, ticks: 4 },
      marks: [
        Plot.rectY(bars, { x1: 'low', x2: 'high', y: 'count', fill: INK.narrow }),
        Plot.ruleX([spread.median], { stroke: INK.accent, strokeDasharray: '4 3' }),
      ],
    },
    'How many cycles take how much charge',
  )
  return {
    id: 'cycle-charge',
    title: 'Charge per cycle',
    caption: `${spread.count} cycles, ${chargeInWords(cycleCharge)} on average; nine in ten lie between ${words(spread.p5)} and ${words(spread.p95)}, half below ${words(spread.median)} (dashed).`,
    svg,
    head: ['from', 'to', 'cycles'],
    rows: bars
      .filter(({ count }) => count > 0)
      .map(({ low, high, count }) => [words(low), words(high), count]),
  }
}
