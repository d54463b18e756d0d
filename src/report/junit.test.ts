/** Read by an XML parser of its own (jsdom); element and attribute names are common practice, from memory. */
import { JSDOM } from 'jsdom'
import { describe, expect, it } from 'vitest'
import type { GateItem } from '../recording/gate.ts'
import type { CheckReport } from './check-report.ts'
import { checkToJunit } from './junit.ts'

const item = (name: string, verdict: GateItem['verdict']): GateItem => ({
  kind: 'step',
  name,
  verdict,
  decided: {
    quantity: 'charge',
    measured: { kind: 'normal', value: 0.0142, u: 1e-4 },
    budget: 0.014,
    limit: 0.0144,
    side: 'at most',
    verdict,
    probability: 0.5,
  },
  why: null,
  parts: [],
  states: [1],
})

const report: CheckReport = {
  file: 'a&b.outpost.yaml',
  recording: '<bench>.csv',
  title: 'Gauge "7" \u0007& more',
  instrument: null,
  slack: 0,
  states: ['A', 'B'],
  flaws: [],
  verdict: 'fail',
  items: [item('sense', 'pass'), item('join <network>', 'cannot tell'), item('send', 'fail')],
}

function parsed(strict: boolean, flaws: CheckReport['flaws'] = []) {
  const { DOMParser } = new JSDOM().window
  return new DOMParser().parseFromString(checkToJunit({ ...report, flaws }, strict), 'application/xml')
}

describe('checkToJunit', () => {
  it('is XML whatever the names hold', () => {
    const xml = parsed(false)
    expect(xml.querySelector('parsererror')).toBeNull()
    expect(xml.querySelector('testsuite')?.getAttribute('name')).toBe('<bench>.csv against a&b.outpost.yaml')
    expect(xml.querySelector('testcase')?.getAttribute('classname')).toBe('Gauge "7" & more')
  })

  it('tells for the whole suite what is wrong with the recording', () => {
    expect(parsed(false).querySelector('testsuite > system-out')).toBeNull()
    const flaws = [{ kind: 'saturated', places: 2, count: 12, duration_s: 0.06 }] as const
    const xml = parsed(false, flaws)
    expect(xml.querySelector('parsererror')).toBeNull()
    expect(xml.querySelector('testsuite > system-out')?.textContent).toContain(
      '<bench>.csv has 2 clipped stretches',
    )
  })

  it.each([
    [false, '1', '1'],
    [true, '2', '0'],
  ])('counts what it holds (strict: %s)', (strict, failures, skipped) => {
    const xml = parsed(strict)
    for (const element of [xml.documentElement, xml.querySelector('testsuite')]) {
      expect(element?.getAttribute('tests')).toBe('3')
      expect(element?.getAttribute('failures')).toBe(failures)
      expect(element?.getAttribute('skipped')).toBe(skipped)
    }
    expect(xml.querySelectorAll('testcase').length).toBe(3)
    expect(String(xml.querySelectorAll('failure').length)).toBe(failures)
    expect(String(xml.querySelectorAll('skipped').length)).toBe(skipped)
    expect(xml.querySelector('failure')?.getAttribute('message')).toContain('allowed 14.4 mC')
  })
})
