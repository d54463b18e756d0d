import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { atBest } from '../../outlook/draw.ts'
import { readOutpost } from '../../outpost/file/read.ts'
import { waveOf } from '../../wake/wave.ts'
import { partAt, waveSteps } from './wave-parts.ts'

const examples = readdirSync('examples').filter((name) => name.endsWith('.outpost.yaml'))

describe('waveSteps', () => {
  it.each(examples)('of %s is the wave of the engine, each part at its step of the file', (name) => {
    const read = readOutpost(readFileSync(`examples/${name}`, 'utf8'))
    if (!read.ok) throw new Error(name)
    const { wake } = atBest(read.outpost)
    const steps = waveSteps(wake)
    const parts = steps.flatMap((step) => step.parts)
    expect(
      parts.map(({ from_s, to_s, current_A, name, shareOfWakes }) => [
        from_s,
        to_s,
        current_A,
        name,
        shareOfWakes,
      ]),
    ).toEqual(
      waveOf(wake).map(({ t0_s, t1_s, current_A, name, share }) => [t0_s, t1_s, current_A, name, share]),
    )
    for (const { list, index, step, from_s, to_s } of steps) {
      expect(wake[list][index]).toBe(step)
      expect(to_s - from_s).toBeCloseTo(step.duration_s, 9)
    }
    expect(parts.reduce((sum, part) => sum + part.shareOfCharge, 0)).toBeCloseTo(1, 12)
  })

  it('takes charge as current times duration, peak apart (by hand)', () => {
    const read = readOutpost(readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8'))
    if (!read.ok) throw new Error('unreadable')
    const send = waveSteps(atBest(read.outpost).wake)[3].parts
    // 280 mA for 10 ms, then 74 mA for the other 2.39 s.
    expect(send.map(({ isPeak, charge_C }) => [isPeak, charge_C])).toEqual([
      [true, expect.closeTo(0.0028, 12)],
      [false, expect.closeTo(0.17686, 12)],
    ])
  })
})

describe('partAt', () => {
  it('finds the part under a moment, and the nearest beyond both ends', () => {
    const read = readOutpost(readFileSync('examples/fjord-tide-hut.outpost.yaml', 'utf8'))
    if (!read.ok) throw new Error('unreadable')
    const parts = waveSteps(atBest(read.outpost).wake).flatMap((step) => step.parts)
    expect(partAt(parts, -1)).toBe(0)
    expect(parts[partAt(parts, 2)].name).toBe('read tide')
    expect(partAt(parts, 1e6)).toBe(parts.length - 1)
  })
})
