/** Work played as a page asks for it, and the reports of it: the same as the commands' own. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { epwFile, madeUpHours } from '../../test/made-up-weather.ts'
import { allTold, type Bench, benchWith } from '../../test/workbench-app.ts'
import type { Answers, Asked, Reported, Told, Work } from '../api/work.ts'
import { forecastToHtml } from '../report/html.ts'
import { sizingToHtml } from '../report/sizing-html.ts'
import { variantsToHtml } from '../report/variants-html.ts'
import { forecastFile } from '../workbench/forecast.ts'

const HUT = 'fjord-tide-hut.outpost.yaml'
const RECORDING = 'snow-depth-build-41.csv.gz'
const METER = 'hand-multimeter.yaml'
const example = (name: string) => readFileSync(join('examples', name))
const OF_HUT = { file: HUT, text: example(HUT).toString(), variant: null, seed: 1 }
const QUICK = { runs: 17, years: 1 }
const QUICK_SIZE = {
  ...QUICK,
  wanted: 0.8,
  partsFile: null,
  objective: 'price',
  axes: { capacities_C: [1440, 3600], powers_W: [0.2], intervals_s: [900, 3600] },
}

let bench: Bench
beforeAll(() => {
  bench = benchWith({
    [HUT]: OF_HUT.text,
    'ness.epw': epwFile(madeUpHours()).join('\n'),
    [RECORDING]: example(`recordings/${RECORDING}`),
    [METER]: example(`instruments/${METER}`),
  })
})
afterAll(() => {
  expect(bench.faults).toEqual([])
  bench.close()
})

const lastTold = async (asked: Asked): Promise<Told> =>
  (await allTold(await bench.send('POST', '/api/work', asked))).at(-1) as Told

async function answered<W extends Work>(asked: Extract<Asked, { work: W }>): Promise<Answers[W]> {
  const last = await lastTold(asked)
  if (last.event !== 'done') throw new Error(JSON.stringify(last))
  return last.answer as Answers[W]
}

const reportOf = async (of: Reported) => (await answered<'report'>({ work: 'report', of })).html

describe('a forecast', () => {
  const played = { runs: 20, years: 2, seed: 7, weather: 'ness.epw', stepsPerHour: 6 } as const
  it('is played as it was asked: runs, years, seed, steps and weather', async () => {
    const answer = await answered<'forecast'>({ work: 'forecast', ...OF_HUT, ...played })
    const wanted = await forecastFile(
      join(bench.folder, HUT),
      {
        ...played,
        variant: null,
        colour: false,
        calendarYear: 2026,
        weather: join(bench.folder, 'ness.epw'),
      },
      { threads: 1 },
    )
    expect(answer).toEqual(JSON.parse(JSON.stringify(wanted)))
    expect(answer.weather).toContain('Made-up Ness, XXX, in whose place')
  })

  it.each([
    ['../secret.csv', /outside the folder/],
    ['.git/year.epw', /outside the folder, or is hidden/],
    ['none.epw', /no file none\.epw/],
    [HUT, /a weather file .* is wanted/],
  ])('takes no weather from %s', async (weather, why) => {
    const told = await lastTold({ work: 'forecast', ...OF_HUT, weather })
    expect(told).toMatchObject({ event: 'refused', isOurs: false, why: expect.stringMatching(why) })
  })
})

describe('sizing', () => {
  it('has the cells, panels and intervals that were asked for', async () => {
    const { frontier } = await answered<'size'>({ work: 'size', ...OF_HUT, ...QUICK_SIZE })
    expect(frontier.capacities_C).toEqual([1440, 3600])
    expect(frontier.powers_W.map((each) => Number(each.toPrecision(6)))).toEqual([0.2])
    expect(frontier.intervals_s).toEqual([900, 3600])
    expect(frontier.asked).toEqual(['cells', 'panels', 'intervals'])
  })
})

describe('a thrift table', () => {
  it('is tried with the hysteresis and the converter that were asked for', async () => {
    const answer = await answered<'thrift'>({
      work: 'thrift',
      ...OF_HUT,
      runs: 24,
      intervals_s: [900, 3600],
      mostRows: 1,
      wanted: 0.8,
      hysteresis_V: 0.1,
      converter: { resolution_V: 0.05, offset_V: 0.015 },
    })
    expect(answer).toMatchObject({ wanted: 0.8, hysteresis_V: 0.1, resolution_V: 0.05, offset_V: 0.015 })
  }, 60_000)
})

/** But for the numbers that Plot gives to clips, one after the other. Compared here, for a difference would be pages long. */
function areAlike(one: string, other: string): boolean {
  const [a, b] = [one, other].map((html) => html.replace(/plot-clip-\d+/g, 'clip'))
  return a === b
}

describe('a report', () => {
  it('of a forecast is the one that the command writes', async () => {
    const of = { work: 'forecast', ...OF_HUT, ...QUICK } as const
    expect(areAlike(await reportOf(of), forecastToHtml(await answered<'forecast'>(of)))).toBe(true)
  })

  it('of variants, too', async () => {
    const of = { work: 'variants', ...OF_HUT, ...QUICK } as const
    expect(areAlike(await reportOf(of), variantsToHtml(await answered<'variants'>(of)))).toBe(true)
  })

  it('of sizing, too', async () => {
    const of = { work: 'size', ...OF_HUT, ...QUICK_SIZE } as const
    expect(areAlike(await reportOf(of), sizingToHtml(await answered<'size'>(of)))).toBe(true)
  }, 60_000)

  it('of a recording has its verdict, its figures, and what it was measured with', async () => {
    const source = { file: RECORDING, rate_Hz: null, from_s: null, to_s: null, voltage_V: null }
    const asked = { work: 'read', ...source, instrument: METER } as const
    const { reading } = await answered<'read'>(asked)
    const html = await reportOf(asked)
    expect(html).toContain(reading.verdict)
    expect(html).toContain('measured by hand multimeter of 4000 counts')
    expect(html.match(/<svg /g)?.length).toBeGreaterThan(2)
  })

  it('says what is wrong as the work itself does', async () => {
    const told = await lastTold({
      work: 'report',
      of: { work: 'forecast', ...OF_HUT, text: OF_HUT.text.replace('wake:', 'wakes:') },
    })
    expect(told).toMatchObject({ event: 'refused', isOurs: false })
    const other = await bench.send('POST', '/api/work', {
      work: 'report',
      of: { work: 'matters', ...OF_HUT },
    })
    expect(other.status).toBe(422)
  })
})

describe('ranges set by hand', () => {
  const asked = (ranges: readonly string[], instrument: string | null = METER): Asked => ({
    work: 'read',
    file: RECORDING,
    rate_Hz: null,
    from_s: 0,
    to_s: 60,
    voltage_V: null,
    instrument,
    ranges,
  })
  it('make what was measured on a coarse range less sure', async () => {
    const rest = async (ranges: readonly string[]) => {
      const { reading } = await answered<'read'>(asked(ranges) as Extract<Asked, { work: 'read' }>)
      return reading.states[0].current
    }
    const [fine, coarse] = [await rest(['0 s=µA']), await rest(['0 s=A'])]
    expect(coarse).not.toEqual(fine)
  })

  it.each([
    [['2 min=none such'], METER, /the ranges are µA, mA, A/],
    [['0 s=mA'], null, /is one of an instrument/],
  ])('are refused where they make no sense: %s', async (ranges, instrument, why) => {
    expect(await lastTold(asked(ranges, instrument))).toMatchObject({
      event: 'refused',
      isOurs: false,
      why: expect.stringMatching(why),
    })
  })
})
