/**
 * From the text of an outpost file to its verdict while it is being typed: one number edited each time, 200 runs, on one
 * thread; and how far the verdict is from that of the full outlook.
 */
import { readdirSync, readFileSync } from 'node:fs'
import type { Outlook } from '../src/outlook/outlook.ts'
import type { Outpost } from '../src/outpost/outpost.ts'
import { row } from './measure.ts'

const RUNS = 200
const SEED = 1
const STROKES = 25
const CALENDAR_YEAR = 2027

/** As built: what a bundler gives a browser is as plain. */
const built = (path: string) => new URL(`../dist/${path}`, import.meta.url).href

const [{ readOutpost }, { whatIf }, { WhatIfMemory }, { usualSize }, { yearCut }] = await Promise.all([
  import(built('outpost/file/read.js')) as Promise<typeof import('../src/outpost/file/read.ts')>,
  import(built('outlook/what-if.js')) as Promise<typeof import('../src/outlook/what-if.ts')>,
  import(built('outlook/what-if-memory.js')) as Promise<typeof import('../src/outlook/what-if-memory.ts')>,
  import(built('outlook/usual-size.js')) as Promise<typeof import('../src/outlook/usual-size.ts')>,
  import(built('sky/year-cut.js')) as Promise<typeof import('../src/sky/year-cut.ts')>,
])
const [{ chunkPlayer, ensembleOf }, { summarise }] = await Promise.all([
  import(built('outlook/ensemble.js')) as Promise<typeof import('../src/outlook/ensemble.ts')>,
  import(built('outlook/summary.js')) as Promise<typeof import('../src/outlook/summary.ts')>,
])

export function whatIfBench(): void {
  console.log(`\nWhat-if: ms from text to verdict of ${RUNS} runs, warm, one number edited each time`)
  row('', 'of it reading', 'least', 'median', 'full ÷ median')
  const examples = readdirSync('examples').filter((file) => file.endsWith('.outpost.yaml'))
  const told = examples.map(answered)
  console.log(`\n  ${RUNS} runs of each, seed ${SEED}`)
  row('', 'full outlook', 'what-if')
  for (const [i, { full, hasty }] of told.entries()) row(examples[i], inShort(full), inShort(hasty))
}

function answered(example: string): { full: Outlook; hasty: Outlook } {
  const text = readFileSync(`examples/${example}`, 'utf8')
  const memory = new WhatIfMemory()
  const reading: number[] = []
  const all: number[] = []
  // The last stroke puts the number back, so that it is the example that is compared.
  const strokes = [...Array.from({ length: STROKES }, (_, i) => edited(text, i + 1)), text]
  let last: Outlook | null = null
  for (const typed of strokes) {
    const began = performance.now()
    const outpost = outpostOf(typed)
    reading.push(performance.now() - began)
    const { years } = usualSize(outpost)
    const playing = whatIf(outpost, { ...shared(outpost), years, runs: RUNS, title: '' }, memory)
    playing.play(RUNS)
    last = playing.outlook()
    all.push(performance.now() - began)
  }
  if (last === null) throw new Error('no stroke was timed')
  const warm = all.slice(3).sort((a, b) => a - b)
  const read = reading.slice(3).sort((a, b) => a - b)
  const began = performance.now()
  const full = fullOutlook(outpostOf(text))
  const full_ms = performance.now() - began
  const middle = warm[warm.length >> 1]
  row(example, read[read.length >> 1], warm[0], middle, full_ms / middle)
  return { full, hasty: last }
}

/** The current of the first step, a little higher with each stroke. */
function edited(text: string, stroke: number): string {
  return text.replace(/(draws: (?:\{ is: )?)([\d.]+)/, (_, before: string, number: string) => {
    return `${before}${(Number(number) * (1 + stroke / 10_000)).toPrecision(8)}`
  })
}

function outpostOf(text: string): Outpost {
  const read = readOutpost(text)
  if (!read.ok) throw new Error(read.diagnostics.map(({ message }) => message).join('; '))
  return read.outpost
}

const shared = ({ place }: Outpost) => ({
  seed: SEED,
  cutDay: yearCut(place.latitude_deg, place.climate.clearness),
  calendarYear: CALENDAR_YEAR,
})

function fullOutlook(outpost: Outpost): Outlook {
  const { years } = usualSize(outpost)
  const ensemble = ensembleOf(outpost, { ...shared(outpost), years, runs: RUNS, stepsPerHour: 1 })
  return summarise(chunkPlayer(ensemble)(0, RUNS), {
    ...ensemble,
    title: '',
    aims: outpost.aims,
    rechargeable: outpost.supply.panel !== null && outpost.supply.charger !== null,
  })
}

function inShort({ rechargeable, winters, life, years }: Outlook): string {
  if (rechargeable) return `${(100 * winters.share).toFixed(1)} %`
  return life.median_days === null ? `over ${years} years` : `${life.median_days} days`
}
