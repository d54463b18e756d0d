/** A forecast for a terminal: the verdict first, then where the charge goes, the year, the aims; 80 columns. */
import type { BudgetPart, Outlook } from '../outlook/outlook.ts'
import { dateOfDay, lifeInWords } from '../outlook/verdict.ts'
import { counted } from '../quantity/counted.ts'
import { formatQuantity, inUnit } from '../quantity/format.ts'
import { formatMeasured } from '../quantity/measured.ts'
import { MONTH_STARTS } from '../sky/calendar.ts'
import { band, bar } from './bar.ts'
import { dayUnit } from './day-unit.ts'
import { forTerminal } from './for-terminal.ts'
import type { Forecast } from './forecast.ts'
import { reportsInWords } from './reports-words.ts'
import { labelled, wrap } from './wrap.ts'

const WIDTH = 78
const SHORT_LIFE_MONTHS = 36
const MOST_ROWS = 15
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

export interface Ink {
  readonly strong: (text: string) => string
  readonly faint: (text: string) => string
  readonly accent: (text: string) => string
}

const plain = (text: string) => text
export const PLAIN: Ink = { strong: plain, faint: plain, accent: plain }
const styled = (code: number, end: number) => (text: string) => `\u001b[${code}m${text}\u001b[${end}m`
export const COLOUR: Ink = { strong: styled(1, 22), faint: styled(2, 22), accent: styled(33, 39) }

export function forecastToTerminal(forecast: Forecast, ink: Ink): string {
  const { outlook } = forecast
  const sections = [
    `${ink.strong(outlook.title)}\n${ink.accent(wrap(outlook.verdict, WIDTH))}`,
    budget(outlook, ink),
    outlook.rechargeable ? year(outlook, ink) : life(outlook, ink),
    figures(forecast, ink),
    aims(outlook, ink),
    remarks(forecast, ink),
    ink.faint(
      wrap(
        `${counted(outlook.runs, 'run')} of ${counted(outlook.years, 'year')}, seed ${outlook.seed}. Weather: ${forecast.weather}. ${counted(forecast.assumptions.length, 'assumption')}: --html lists them with their sources.`,
        WIDTH,
      ),
    ),
  ]
  return forTerminal(`${sections.filter((s) => s !== '').join('\n\n')}\n`)
}

function budget({ budget: parts }: Outlook, ink: Ink): string {
  const total = parts.reduce((sum, part) => sum + part.charge_C, 0)
  const most = Math.max(...parts.map((part) => part.charge_C))
  const unit = dayUnit(total)
  const row = (part: BudgetPart) => {
    const share = `${Math.round((100 * part.charge_C) / total)} %`
    const name = part.name.length > 22 ? `${part.name.slice(0, 21)}…` : part.name
    const charge = formatMeasured(part.charge_C, part.u_C, 'charge', unit)
    return `  ${name.padEnd(22)} ${bar(part.charge_C / most, 22)} ${charge.padStart(20)} ${share.padStart(6)}`
  }
  const shown = parts.filter((part) => part.charge_C > 0).sort((a, b) => b.charge_C - a.charge_C)
  const title = `Where a day's charge goes: ${inUnit(total, unit, 3)} from the cell`
  return [ink.strong(title), ...shown.map(row)].join('\n')
}

/** Twelve rows from the cut on, so that the darkest weeks stand in the middle. */
function year({ byDay, cutDay, deathsByDay, light_J_m2 }: Outlook, ink: Ink): string {
  const first = MONTH_STARTS.findLastIndex((start) => start <= cutDay)
  const rows = Array.from({ length: 12 }, (_, i) => {
    const month = (first + i) % 12
    const inMonth = (day: number) => day >= MONTH_STARTS[month] && day < MONTH_STARTS[month + 1]
    const days = byDay.filter(({ at }) => inMonth(at))
    const lowest = (key: 'p5' | 'p25' | 'p50' | 'p75' | 'p95') => Math.min(...days.map((day) => day[key]))
    const deaths = deathsByDay.filter(({ day }) => inMonth(day)).reduce((sum, { deaths }) => sum + deaths, 0)
    const light = light_J_m2.slice(MONTH_STARTS[month], MONTH_STARTS[month + 1])
    const mean = light.reduce((a, b) => a + b, 0) / light.length
    const drawn = band([lowest('p5'), lowest('p25'), lowest('p50'), lowest('p75'), lowest('p95')], 40)
    const sun = formatQuantity(mean, 'dailyIrradiation', { digits: 2 })
    return `  ${MONTHS[month]} ▕${drawn}▏ ${sun.padStart(14)}${deaths > 0 ? `  † ${deaths}` : ''}`
  })
  const scale = `      0 %${' '.repeat(34)}100 %`
  const title = 'The year: least charge left in each month, 5 25 50 75 95 years of 100'
  return [ink.strong(title), ...rows, ink.faint(`${scale}     light on panel  † deaths`)].join('\n')
}

/** Runs still alive, by years or, for a life that short, by months; a dozen rows or so, down to the last death. */
function life({ lifeByMonth, runs }: Outlook, ink: Ink): string {
  const alive = [1]
  for (const deaths of lifeByMonth) alive.push(alive[alive.length - 1] - deaths / runs)
  const lastMonth = alive.findIndex((share) => share < 0.5 / runs)
  const months = lastMonth < 0 ? alive.length - 1 : lastMonth
  const [unit, perUnit] = months > SHORT_LIFE_MONTHS ? (['years', 12] as const) : (['months', 1] as const)
  const stride = Math.max(1, Math.ceil(months / perUnit / MOST_ROWS))
  const rows: string[] = []
  for (let n = stride; n * perUnit < months + stride * perUnit && n * perUnit < alive.length; n += stride) {
    const share = Math.max(0, alive[n * perUnit])
    const time = `${String(n).padStart(3)} ${n === 1 ? unit.slice(0, -1) : unit}`.padEnd(4 + unit.length)
    rows.push(`  ${time} ${bar(share, 40)} ${String(Math.round(100 * share)).padStart(4)} of 100`)
  }
  return [ink.strong('Alive after'), ...rows].join('\n')
}

function figures({ outlook, wake, wakesPerDay, reports, replay }: Forecast, ink: Ink): string {
  const { margin_V, worstFortnight, downHoursPerYear, life: lives } = outlook
  const rows: [string, string][] = [
    [
      'One wake',
      `${formatQuantity(wake.duration_s, 'duration', { digits: 3 })} and ${formatQuantity(wake.charge_C, 'charge', { digits: 3 })} on average; ${Number(wakesPerDay.toPrecision(3))} wakes a day`,
    ],
    ['Reports a day', reportsInWords({ outlook, reports })],
    ['Hours down', `${round(downHoursPerYear)} a year`],
  ]
  if (outlook.rechargeable)
    rows.push([
      'Worst fortnight',
      `from ${dateOfDay(worstFortnight.startDay)}: ${round(worstFortnight.downHours)} hours down; in one year of twenty ${Math.round(100 * worstFortnight.p5State)} % charge left`,
    ])
  else if (lives.median_days !== null) rows.push(['Median life', lifeInWords(lives.median_days)])
  if (margin_V !== null)
    rows.push([
      'Least in hand',
      `${margin_V.median.toFixed(2)} V over what a wake needs (median run), ${margin_V.p5.toFixed(2)} V (poorest of twenty)`,
    ])
  if (replay !== null)
    rows.push([
      "File's own year",
      `${replay.alive ? 'survived' : `${round(replay.downHours)} hours down`}; least charge ${Math.round(100 * replay.lowestState)} % on ${dateOfDay(replay.lowestDay)}`,
    ])
  return [ink.strong('In figures'), ...rows.map(([name, text]) => labelled(name, text, 16, WIDTH))].join('\n')
}

/** A phrase of a diagnostic as a sentence of its own. */
const sentence = (phrase: string) =>
  `${phrase[0].toUpperCase()}${phrase.slice(1)}${/[.?!]$/.test(phrase) ? '' : '.'}`

const round = (x: number) => (x === 0 ? '0' : x < 0.05 ? '< 0.1' : String(Number(x.toPrecision(2))))

function aims({ aims: answers }: Outlook, ink: Ink): string {
  if (answers.length === 0) return ''
  const word = { yes: 'kept', no: 'not kept', 'cannot tell': 'cannot tell' }
  return [
    ink.strong('Aims'),
    ...answers.map(({ aim, holds, why }) => labelled(word[holds], `${aim}: ${why}`, 12, WIDTH)),
  ].join('\n')
}

function remarks({ warnings, cautions }: Forecast, ink: Ink): string {
  const lines = [
    ...warnings.map(({ message, cure }) => labelled('!', `${sentence(message)} ${sentence(cure)}`, 1, WIDTH)),
    ...cautions.map((text) => labelled('⚠', text, 1, WIDTH)),
  ]
  return lines.length === 0 ? '' : [ink.strong('Take care'), ...lines].join('\n')
}
