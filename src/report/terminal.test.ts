import { expect, it } from 'vitest'
import { envelope, exact, step } from '../../test/designs.ts'
import { chunkPlayer, ensembleOf } from '../outlook/ensemble.ts'
import { summarise } from '../outlook/summary.ts'
import { forecastOf } from './forecast-of.ts'
import { forecastToTerminal, PLAIN } from './terminal.ts'

function shown(rest_A: number, years: number, title = 'envelope'): string {
  const outpost = exact(envelope({ rest_A, steps: [step({ duration_s: 0.001, current_A: rest_A })] }))
  const choices = { years, runs: 4, seed: 1, stepsPerHour: 1, cutDay: 181, calendarYear: 2027 }
  const ensemble = ensembleOf(outpost, choices)
  const outlook = summarise(chunkPlayer(ensemble)(0, choices.runs), {
    ...ensemble,
    title,
    aims: outpost.aims,
    rechargeable: false,
  })
  const forecast = forecastOf(
    { assumptions: [], sources: [] },
    {
      file: 'envelope.outpost.yaml',
      outlook,
      replay: null,
      warnings: [],
      outpost,
      weatherYear: null,
      isMoved: false,
      counted: ensemble,
    },
  )
  return forecastToTerminal(forecast, PLAIN)
}

it('counts one year and one month as one, in line with the others', () => {
  const bars = (text: string) => text.split('\n').filter((line) => /^ +\d+ (year|month)s? /.test(line))
  // 500 mAh at 15 µA last 3.8 years, at 0.3 mA 2.3 months.
  for (const [rest_A, years, unit] of [
    [15e-6, 5, 'year'],
    [3e-4, 1, 'month'],
  ] as const) {
    const [first, second] = bars(shown(rest_A, years))
    expect(first).toMatch(new RegExp(`^ {4}1 ${unit} +█`))
    expect(second).toContain(`2 ${unit}s █`)
    expect(first.indexOf('█')).toBe(second.indexOf('█'))
  }
})

it("lets no control character of the file's title through", () => {
  const text = shown(15e-6, 1, 'a \u001b[31mred title\u0007')
  expect(text).toMatch(/^a {2}\[31mred title \n/)
  expect(text).not.toMatch(/(?!\n)\p{Cc}/u)
})
