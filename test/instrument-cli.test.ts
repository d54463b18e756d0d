import { afterAll, describe, expect, it } from 'vitest'
import { BEFORE, HAND, SHUNT, workIn } from './recordings.ts'

const { run, reading, file, remove } = workIn('instrument')
afterAll(remove)

describe('the instrument', () => {
  it('widens each state by what its maker allows, as JCGM 100 has it', () => {
    const { states, instrument, charge } = reading(BEFORE, '--instrument', SHUNT)
    expect(instrument).toBe('shunt amplifier with three ranges')
    expect(states.map(({ range }) => range)).toEqual(['fine', 'middle', 'coarse', 'coarse'])
    const { current, u_A, mean_A } = states[3]
    // ± (0.2 % + 60 µA), rectangular (4.3.7), with the scatter; rounding to 8 µA is averaged out by noise.
    const limit_A = 0.002 * mean_A + 60e-6
    expect(current.kind === 'normal' && current.u).toBeCloseTo(Math.hypot(limit_A / Math.sqrt(3), u_A), 7)
    expect(charge.u_C).toBeGreaterThan(0)
    expect(reading(BEFORE).charge.u_C).toBeNull()
  })

  it('makes a zero on a coarse range half a digit at most', () => {
    const { states, verdict } = reading(BEFORE, '--instrument', HAND, '--range', '0 s=A')
    expect(states[0].current).toEqual({ kind: 'below', limit: 0.005 })
    expect(verdict).toContain('at rest it draws < 5 mA')
  })

  it('takes the coarser of two ranges where it was changed on the way', () => {
    const changed = ['--range', '0 s=µA', '--range', '100 s=mA']
    const { states } = reading(BEFORE, '--instrument', HAND, ...changed)
    expect(states[0].range).toBe('mA')
    // On the fine range the wakes before the change are beyond what it shows.
    expect(states[3].range).toBeNull()
    expect(run('read', BEFORE, '--instrument', HAND, ...changed).out).toContain('beyond every range')
  })

  it('says by how much its burden shifts a current, and what it is too slow for', () => {
    const out = run('read', BEFORE, '--instrument', HAND, '--voltage', '3.3 V').out.replace(/\s+/g, ' ')
    // 43 mA through 3 Ω are 129 mV.
    expect(out).toMatch(/In D the instrument takes 130 mV of the supply/)
    expect(out).toMatch(/B lasts 60 ms, .* 53 % of its height/)
  })

  it.each([
    ['an unknown key', 'instrument: x\nranges:\n  - { up to: 1 A, burdon: 1 Ω }\n', 3, 'unknown-key'],
    ['a missing limit', 'instrument: x\nranges:\n  - { digit: 1 mA }\n', 3, 'missing-key'],
    ['a wrong unit', 'instrument: x\nranges:\n  - { up to: 1 mAh }\n', 3, 'unit-wrong-dimension'],
    [
      'an accuracy in words',
      'instrument: x\nranges:\n  - { up to: 1 A, accuracy: good }\n',
      3,
      'accuracy-unreadable',
    ],
    [
      'ranges that fall',
      'instrument: x\nranges:\n  - { up to: 1 A }\n  - { up to: 1 mA }\n',
      4,
      'ranges-out-of-order',
    ],
    [
      'digits of no size',
      'instrument: x\nranges:\n  - { up to: 1 A, accuracy: 1 % + 2 digits }\n',
      3,
      'digit-missing',
    ],
    ['no ranges', 'instrument: x\n', 1, 'missing-key'],
    ['nothing', '', 1, 'missing-key'],
    ['broken YAML', 'instrument: [\n', 2, 'yaml-'],
  ])('%s in its file is named with line and cure', (_what, text, line, codeOf) => {
    const path = file('bad-instrument.yaml', text)
    const { code, out, err } = run('read', BEFORE, '--instrument', path)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(new RegExp(`bad-instrument\\.yaml:${line}:\\d+: error .*\\[${codeOf}`))
    expect(err).toContain('cure: ')
  })
})
