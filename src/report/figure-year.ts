/** The year from cut to cut, charge as a fan of bands, deaths marked; and the weeks around the worst fortnight. */
import * as Plot from '@observablehq/plot'
import type { Outlook } from '../outlook/outlook.ts'
import { dateOfDay } from '../outlook/verdict.ts'
import { DAYS, MONTH_STARTS } from '../sky/calendar.ts'
import { BAND_HEAD, bandCells, CHARGE_AXIS, chargeFan } from './charge-fan.ts'
import type { Figure } from './figure.ts'
import { drawSvg, INK } from './svg.ts'

const MONTHS = ['J', 'F', 'M', 'A', 'M', 'J', 'J', 'A', 'S', 'O', 'N', 'D']
const SYMBOLS = {
  empty: 'circle',
  'brown-out under the peak': 'triangle',
  cold: 'asterisk',
  'too old': 'square',
  'flash worn out': 'times',
} as const

export function yearFigure(outlook: Outlook): Figure {
  const { cutDay, byDay, light_J_m2, worstFortnight } = outlook
  const since = (day: number) => (day - cutDay + DAYS) % DAYS
  const points = byDay.map((b) => ({ ...b, x: since(b.at) }))
  const light = light_J_m2.map((j, day) => ({ x: since(day), kWh: j / 3.6e6 })).sort((a, b) => a.x - b.x)
  const most = Math.max(...light.map((l) => l.kWh), 1e-9)
  const months = MONTHS.map((name, i) => ({ x: since(MONTH_STARTS[i]), name }))
  const svg = drawSvg(
    {
      width: 720,
      height: 300,
      marginLeft: 48,
      marginRight: 48,
      x: {
        domain: [0, DAYS],
        label: null,
        ticks: months.map((m) => m.x),
        tickFormat: (x: number) => months.find((m) => m.x === x)?.name ?? '',
      },
      y: CHARGE_AXIS,
      marks: [
        ...chargeFan(points),
        Plot.line(light, { x: 'x', y: (l) => l.kWh / most, stroke: INK.faint, strokeDasharray: '2 3' }),
        Plot.text([light[light.length - 1]], {
          x: 'x',
          y: (l) => l.kWh / most,
          text: () => 'light',
          dx: 18,
          fill: INK.faint,
        }),
        Plot.ruleX([since(worstFortnight.startDay)], { stroke: INK.accent, strokeDasharray: '4 3' }),
        ...deathMarks(outlook, since),
      ],
    },
    'Charge left by day of the year',
  )
  const light_kWh = (day: number) => Number((light_J_m2[day] / 3.6e6).toPrecision(3))
  return {
    id: 'year',
    title: 'The year',
    caption: `Least charge of each day, from ${dateOfDay(cutDay)} on, so that the darkest weeks lie in the middle: nine years in ten lie in the pale band, half in the darker one, the line is the middle year. The dashed line marks ${dateOfDay(worstFortnight.startDay)}, where the worst fortnight starts. The dotted line is the light on the panel, up to ${most.toPrecision(2)} kWh/m² a day.${deathNote(outlook)}`,
    svg,
    head: ['day', ...BAND_HEAD, 'light (kWh/m²/d)'],
    rows: points
      .filter((_, i) => i % 7 === 0)
      .map((b) => [dateOfDay(b.at), ...bandCells(b), light_kWh(b.at)]),
  }
}

export function worstWeeksFigure(outlook: Outlook): Figure {
  const { worstFortnight, byDay } = outlook
  const from = worstFortnight.startDay - 28
  const since = (day: number) => (day - from + 2 * DAYS) % DAYS
  const points = byDay.map((b) => ({ ...b, x: since(b.at) })).filter((b) => b.x < 70)
  points.sort((a, b) => a.x - b.x)
  const weeks = Array.from({ length: 11 }, (_, i) => 7 * i)
  const svg = drawSvg(
    {
      width: 720,
      height: 240,
      marginLeft: 48,
      x: {
        domain: [0, 70],
        label: null,
        ticks: weeks.filter((_, i) => i % 2 === 0),
        tickFormat: (x: number) => dateOfDay(from + x),
      },
      y: CHARGE_AXIS,
      marks: [
        Plot.rectX([0], { x1: 28, x2: 42, y1: 0, y2: 1, fill: INK.accent, fillOpacity: 0.08 }),
        ...chargeFan(points),
        ...deathMarks(outlook, since),
      ],
    },
    'Charge left around the worst fortnight',
  )
  return {
    id: 'worst-weeks',
    title: 'The worst weeks',
    caption: `Ten weeks around the worst fortnight, ${dateOfDay(worstFortnight.startDay)} to ${dateOfDay(worstFortnight.startDay + 13)}: ${worstFortnight.downHours < 0.05 ? 'no hours' : `${worstFortnight.downHours.toPrecision(2)} hours`} down on average, and ${percent(worstFortnight.p5State)} of charge left in one year of twenty.`,
    svg,
    head: ['day', ...BAND_HEAD],
    rows: points.map((b) => [dateOfDay(b.at), ...bandCells(b)]),
  }
}

function deathMarks({ deathsByDay }: Outlook, since: (day: number) => number) {
  return deathsByDay.length === 0
    ? []
    : [
        Plot.dot(deathsByDay, {
          x: (d) => since(d.day),
          y: 0,
          r: (d) => 2 + Math.min(Math.sqrt(d.deaths), 5),
          symbol: (d: (typeof deathsByDay)[number]) => SYMBOLS[d.cause],
          stroke: INK.accent,
          clip: true,
        }),
      ]
}

function deathNote({ deathsByDay }: Outlook): string {
  const causes = [...new Set(deathsByDay.map((d) => d.cause))]
  if (causes.length === 0) return ' No run died.'
  return ` Marks at the foot are deaths: ${causes.map((c) => `${SYMBOLS[c]} for ${c}`).join(', ')}.`
}

const percent = (s: number) => `${Math.round(100 * s)} %`
