import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { WhatIfMemory } from '../../outlook/what-if-memory.ts'
import { answersTo } from './answer.ts'
import type { Answer, Question } from './messages.ts'

const text = readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8')
const question: Question = {
  id: 7,
  file: 'hut.outpost.yaml',
  text,
  files: {},
  variant: null,
  seed: 1,
  calendarYear: 2027,
}

/** The first answer, and then a look after each portion of `runs`. */
function answered(asked: Partial<Question>, runs = 100): { first: Answer; looks: Answer[] } {
  const [first, ...portions] = [...answersTo({ ...question, ...asked }, new WhatIfMemory(), () => runs)]
  if (!('kind' in first)) throw new Error('what was read does not come first')
  return { first, looks: portions.map((portion) => ('look' in portion ? portion.look() : portion)) }
}

const forecasts = (looks: readonly Answer[]) =>
  looks.map((look) => {
    if (look.kind !== 'forecast') throw new Error(`a ${look.kind} among the forecasts`)
    return look
  })

describe('answers to a question', () => {
  it('begin with what was read, and end with all the runs', () => {
    const { first, looks } = answered({})
    expect(first).toMatchObject({ id: 7, kind: 'read', diagnostics: [], wanted: [] })
    const told = forecasts(looks)
    expect(told.map(({ isWhole }) => isWhole)).toEqual([false, true])
    const { forecast } = told[1]
    expect(forecast.outlook.runs).toBeGreaterThanOrEqual(200)
    expect(forecast.outlook.title).toBe('Tide hut in the fjord')
    expect(forecast.wakesPerDay).toBeCloseTo(96, 6)
    expect(forecast.capacity_C).toBeCloseTo(0.6 * 3600, 6)
    expect(forecast.wave.length).toBeGreaterThan(0)
    expect(forecast.cautions.length).toBeGreaterThan(0)
  })

  it('are of the variant that was asked for', () => {
    const { looks } = answered({ variant: 'two cells' })
    expect(forecasts(looks)[1].forecast.capacity_C).toBeCloseTo(1.2 * 3600, 6)
  })

  it('tell where a text is wrong, and no forecast', () => {
    const { first, looks } = answered({ text: text.replace('rate: 15 min', 'rate: 15 mA') })
    expect(looks).toEqual([])
    if (first.kind !== 'read') throw new Error(first.kind)
    expect(first.outpost).toBeNull()
    const line = text.split('\n').findIndex((each) => each.includes('rate: 15 min')) + 1
    expect(first.diagnostics.map(({ range }) => range.start.line)).toEqual([line])
  })

  it('ask for a weather file that is named and was not sent', () => {
    const { first } = answered({ text: text.replace(/sunshine: .*/, 'file: hut.epw') })
    expect(first).toMatchObject({ kind: 'read', wanted: ['hut.epw'], outpost: null })
  })
})
