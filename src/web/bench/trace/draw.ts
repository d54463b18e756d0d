/** The whole drawing of a trace, by whatever pen: notes, axes, trace, rows of states. */
import type { StateBands } from '../../../report/recording-reading.ts'
import type { Columns } from './columns.ts'
import { type CurrentScale, currentTicks, heightOf } from './current-scale.ts'
import { type Layout, plotWidth, rowTop, xOf } from './layout.ts'
import { type Ink, mixed, type Pen } from './pen.ts'
import { timeAxis } from './time-ticks.ts'
import type { Window } from './window.ts'

export interface StateRow {
  readonly name: string
  readonly mean_A: number
  /** The state between wakes. */
  readonly rests: boolean
}

export interface Scene {
  readonly layout: Layout
  readonly window: Window
  readonly scale: CurrentScale
  readonly columns: Columns
  /** Lowest current first. */
  readonly states: readonly StateRow[]
  /** Null while the states are not known. */
  readonly bands: StateBands | null
  /** Stretches that were noted, in the order of their numbers. */
  readonly notes: readonly Window[]
  /** The one whose edges can be moved; null where there is none. */
  readonly chosen: number | null
  /** The middle is marked, where keys read out. */
  readonly hasMiddle: boolean
}

const SIZE = 13
const SMALL = 11.5
const TICK_ROOM = 92
const END_ROOM = 28

export function drawTrace(pen: Pen, ink: Ink, scene: Scene): void {
  drawNotes(pen, ink, scene)
  drawAxes(pen, ink, scene)
  drawEnvelope(pen, ink, scene)
  drawRows(pen, ink, scene)
  drawEdges(pen, ink, scene)
}

function drawNotes(pen: Pen, ink: Ink, { layout, window, notes }: Scene): void {
  for (const note of notes) {
    const [from, to] = visible(layout, window, note)
    if (to > from) pen.rect(from, layout.top, to - from, layout.bottom - layout.top, ink.accentWash)
  }
}

function visible(layout: Layout, window: Window, { from_s, to_s }: Window): [number, number] {
  const ends = [layout.left, layout.width - layout.right]
  return [Math.max(xOf(layout, window, from_s), ends[0]), Math.min(xOf(layout, window, to_s), ends[1])]
}

function drawAxes(pen: Pen, ink: Ink, { layout, window, scale, states }: Scene): void {
  const right = layout.width - layout.right
  const y = (current_A: number) => heightAt(layout, scale, current_A)
  for (const { value, label } of currentTicks(scale)) {
    pen.line(layout.left, y(value), right, y(value), ink.rule, 1)
    pen.text(label, layout.left - 8, y(value) + 4, { fill: ink.faint, align: 'right', size: SIZE })
  }
  pen.text('current', 0, SIZE, { fill: ink.faint, align: 'left', size: SIZE, italic: true })
  const foot = rowTop(layout, states.length)
  const axis = timeAxis(window, Math.floor(plotWidth(layout) / TICK_ROOM))
  pen.line(layout.left, foot, right, foot, ink.faint, 1)
  for (const { value, label } of axis.ticks) {
    const x = xOf(layout, window, value)
    pen.line(x, foot, x, foot + 4, ink.faint, 1)
    // At the ends, a label stays inside the drawing.
    const at = Math.min(Math.max(x, layout.left / 2), layout.width - END_ROOM)
    pen.text(label, at, foot + 18, { fill: ink.faint, align: 'center', size: SIZE })
  }
  pen.text(axis.name, right, foot + 36, { fill: ink.faint, align: 'right', size: SIZE, italic: true })
}

const heightAt = (layout: Layout, scale: CurrentScale, current_A: number): number =>
  layout.bottom - heightOf(scale, current_A) * (layout.bottom - layout.top)

/** Used again from frame to frame. */
let tops = new Float64Array(0)
let bottoms = new Float64Array(0)
let means = new Float64Array(0)

/** No thinner than this, so that a steady current is a line. */
const THIN = 1.4
/** Where lowest and highest are so far apart, the mean is drawn as well. */
const APART = 6

function drawEnvelope(pen: Pen, ink: Ink, { layout, columns, scale }: Scene): void {
  const { count } = columns
  if (tops.length < count) {
    tops = new Float64Array(count)
    bottoms = new Float64Array(count)
    means = new Float64Array(count)
  }
  let before = -1
  for (let k = 0; k < count; k++) {
    const top = heightAt(layout, scale, columns.max_A[k])
    const bottom = heightAt(layout, scale, columns.min_A[k])
    if (Number.isNaN(columns.max_A[k])) {
      tops[k] = Number.NaN
      means[k] = Number.NaN
      before = -1
      continue
    }
    means[k] = bottom - top > APART ? heightAt(layout, scale, columns.mean_A(k)) : Number.NaN
    const thick = Math.max(THIN - (bottom - top), 0) / 2
    tops[k] = top - thick
    bottoms[k] = bottom + thick
    // Side by side they touch, as the current between two samples goes from one to the other.
    if (before >= 0 && tops[k] > bottoms[before]) tops[k] = bottoms[before]
    if (before >= 0 && bottoms[k] < tops[before]) bottoms[k] = tops[before]
    before = k
  }
  const width = plotWidth(layout) / count
  pen.bars(layout.left, width, tops, bottoms, count, ink.ink)
  pen.curve(layout.left, width, means, count, ink.accent, 1.6)
}

/** A row for each state, so that a short visit is seen beside a long one; letters tell them apart, shades help. */
function drawRows(pen: Pen, ink: Ink, { layout, window, states, bands, scale }: Scene): void {
  if (bands === null) return
  const right = layout.width - layout.right
  const shade = states.map(({ rests }, k) =>
    rests ? ink.band : mixed(ink.band, ink.accent, states.length < 2 ? 1 : k / (states.length - 1)),
  )
  const y = (k: number) => rowTop(layout, states.length - 1 - k)
  states.forEach(({ name }, k) => {
    const base = y(k) + layout.row - 3.5
    pen.text(name, layout.left - 8, base, { fill: ink.ink, align: 'right', size: SIZE })
    pen.line(layout.left, base, right, base, ink.rule, 0.5)
  })
  // Beside the trace each letter stands at its level, or as near to it as the one below lets it.
  let below = Number.POSITIVE_INFINITY
  for (const { name, mean_A } of states) {
    const level = Math.min(heightAt(layout, scale, mean_A), below - SMALL)
    pen.text(name, right + 7, level + 4, { fill: ink.faint, align: 'left', size: SMALL })
    below = level
  }
  const { times_s } = bands
  const drawnTo = new Float64Array(states.length).fill(-1)
  for (let k = bandAt(times_s, window.from_s); k < bands.states.length && times_s[k] < window.to_s; k++) {
    const state = bands.states[k]
    const [from, to] = visible(layout, window, { from_s: times_s[k], to_s: times_s[k + 1] })
    // Of many visits within a pixel, one is drawn.
    if (to <= drawnTo[state]) continue
    const end = Math.max(to, from + 1)
    pen.rect(from, y(state) + 2, end - from, layout.row - 5, shade[state])
    drawnTo[state] = end
  }
}

/** The stretch that holds at a time. */
export function bandAt(times_s: readonly number[], time_s: number): number {
  let low = 0
  let high = Math.max(times_s.length - 2, 0)
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (times_s[middle] <= time_s) low = middle
    else high = middle - 1
  }
  return low
}

function drawEdges(pen: Pen, ink: Ink, { layout, window, notes, chosen, hasMiddle }: Scene): void {
  const right = layout.width - layout.right
  notes.forEach((note, k) => {
    for (const time_s of [note.from_s, note.to_s]) {
      const x = xOf(layout, window, time_s)
      if (x >= layout.left - 0.5 && x <= right + 0.5)
        pen.line(x, layout.top, x, layout.bottom, ink.accent, k === chosen ? 2 : 1, k !== chosen)
    }
    const [from, to] = visible(layout, window, note)
    if (to >= from)
      pen.text(String(k + 1), (from + to) / 2, layout.top - 7, {
        fill: ink.accent,
        align: 'center',
        size: SIZE,
      })
  })
  if (!hasMiddle) return
  const middle = (layout.left + right) / 2
  pen.line(middle, layout.top, middle, layout.bottom, ink.faint, 1, true)
}
