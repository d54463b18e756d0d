/** What matters, for a terminal: the spread, what measuring better would narrow, what mending would gain; 80 columns. */
import type { Matters, MendMatter } from '../decisions/matters.ts'
import type { Estimate } from '../numeric/sobol-indices.ts'
import { lifeInWords } from '../outlook/verdict.ts'
import { counted } from '../quantity/counted.ts'
import { bar } from './bar.ts'
import { forTerminal } from './for-terminal.ts'
import type { Ink } from './terminal.ts'
import { wrap } from './wrap.ts'

const WIDTH = 78
const MOST_ROWS = 12
const NAME = 34

type Told = Matters & { readonly title: string; readonly seed: number; readonly weather: string }

export function mattersToTerminal(matters: Told, ink: Ink): string {
  const sections = [
    `${ink.strong(matters.title)}\n${ink.accent(wrap(mattersInWords(matters), WIDTH))}`,
    measure(matters, ink),
    mend(matters, ink),
    ink.faint(
      wrap(
        `${matters.futures} futures from ${matters.rows} rows of a Sobol' sequence, seed ${matters.seed}. Weather: ${matters.weather}. Alone: first-order index; with others: total index (Saltelli 2010, Jansen 1999); ± is half of the 95 % interval by bootstrap.`,
        WIDTH,
      ),
    ),
  ]
  return forTerminal(`${sections.filter((text) => text !== '').join('\n\n')}\n`)
}

export function mattersInWords({ of, spread, survived, beyond, years, rows, inputs }: Told): string {
  if (beyond === 2 * rows)
    return `Every life outlasts the ${counted(years, 'year')} played: follow them for longer with --years.`
  const range =
    of === 'life'
      ? `Nine lives in ten end between ${lifeInWords(spread.p5)} and ${lifeInWords(spread.p95)}.`
      : `In nine winters of ten the charge falls to between ${percent(spread.p5)} and ${percent(spread.p95)} at its least; ${percent(survived ?? 0)} of the winters are survived.`
  const cut =
    beyond > 0
      ? ` ${beyond} of ${2 * rows} outlive the ${counted(years, 'year')} played and count as ${counted(years, 'year')}.`
      : ''
  const [first] = inputs ?? []
  const most = first === undefined ? '' : ` Most of the spread comes from ${first.name}.`
  return range + cut + most
}

const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`

function measure({ inputs, of, spread }: Told, ink: Ink): string {
  if (inputs === null) return 'Every future came out the same: no number of the file spreads it.'
  const width = (w: number) => (of === 'life' ? lifeInWords(w) : `${percent(w)} of charge`)
  const share = ({ value, low, high }: Estimate) =>
    `${Math.max(0, 100 * value).toFixed(0)} ± ${((100 * (high - low)) / 2).toFixed(0)}`
  const rows = inputs.slice(0, MOST_ROWS).map(({ name, kind, index, leftWidth }) => {
    const left = kind === 'weather' ? 'not to be known' : width(leftWidth)
    const drawn = bar(index.total.value, 8)
    return `  ${cutTo(name, NAME)} ${drawn} ${share(index.first).padStart(8)} ${share(index.total).padStart(8)}  ${left}`
  })
  const others = inputs.length - rows.length
  return [
    ink.strong(`Measure this better: nine in ten lie within ${width(spread.p95 - spread.p5)} now`),
    ink.faint(
      `  ${'share of the variance, %'.padEnd(NAME + 9)} ${'alone'.padStart(8)} ${'in all'.padStart(8)}  left if known`,
    ),
    ...rows,
    ...(others > 0 ? [ink.faint(`  and ${others} that matter less`)] : []),
  ].join('\n')
}

function mend({ mends, of }: Told, ink: Ink): string {
  const most = Math.max(...mends.map((m) => m.gain.value), 1e-12)
  const row = (m: MendMatter) =>
    `  ${cutTo(m.part, 22)} ${m.change.padEnd(16)} ${bar(m.gain.value / most, 8)}  ${of === 'life' ? days(m.gain) : winters(m)}`
  return [
    ink.strong(
      `Mend this: what it would gain in ${of === 'life' ? 'life' : 'winters of 100, and in least charge'}`,
    ),
    ...mends.map(row),
  ].join('\n')
}

function days({ value, low, high }: Estimate): string {
  const half = (high - low) / 2
  return `${value.toFixed(0)} ± ${Math.ceil(half)} days`
}

function winters({ winters: w, gain }: MendMatter): string {
  const of100 =
    w === null ? '' : `${(100 * w.value).toFixed(1)} ± ${(50 * (w.high - w.low) || 0).toFixed(1)} winters, `
  return `${of100}${(100 * gain.value).toFixed(1)} ± ${(50 * (gain.high - gain.low)).toFixed(1)} %`
}

const cutTo = (text: string, width: number) =>
  (text.length > width ? `${text.slice(0, width - 1)}…` : text).padEnd(width)
