import { readFileSync, writeFileSync } from 'node:fs'
import { afterAll, describe, expect, it } from 'vitest'
import type { RecordingComparison } from '../src/report/recording-comparison.ts'
import { AFTER, BEFORE, OUTPOST, widest, workIn } from './recordings.ts'
import { overwinter } from './run-cli.ts'

const { run, file, remove } = workIn('compare')
afterAll(remove)

describe('overwinter compare A B', () => {
  const compared = (...args: string[]) =>
    JSON.parse(run('compare', ...args, '--json').out) as RecordingComparison

  it('finds the state that appeared, the rest that rose, and nothing else', () => {
    const { difference, before, after } = compared(BEFORE, AFTER)
    const of = (kind: string) => difference.states.filter((state) => state.kind === kind)
    expect(of('appeared').map(({ after: k }) => after.states[k ?? 0].mean_A)).toEqual([
      expect.closeTo(10.5e-3, 4),
    ])
    expect(of('vanished')).toEqual([])
    expect(of('shifted').map(({ before: k }) => before.states[k ?? 0].rests)).toEqual([true])
    const rest = of('shifted')[0].current
    expect(rest?.low).toBeLessThan(5.3e-6)
    expect(rest?.high).toBeGreaterThan(5.3e-6)
    expect(difference.charge?.significant).toBe(true)
  })

  it('finds nothing between a recording and itself', () => {
    const { difference, verdict } = compared(BEFORE, BEFORE)
    expect(difference.states.every(({ kind }) => kind === 'same')).toBe(true)
    expect(verdict).toBe('A cycle takes as much as before.')
  })

  it('says what it does to an outpost, the same for any number of threads', () => {
    const small = ['--file', OUTPOST, '--runs', '20', '--years', '20']
    const { outlook, verdict } = compared(BEFORE, AFTER, ...small, '--threads', '1')
    expect(compared(BEFORE, AFTER, ...small, '--threads', '2').outlook).toEqual(outlook)
    expect(outlook?.differences.life_days.isReal).toBe(true)
    expect(outlook?.differences.life_days.mean).toBeLessThan(-5 * 365)
    const { out } = run('compare', BEFORE, AFTER, ...small)
    expect(out.replace(/\s+/g, ' ')).toContain(verdict)
    expect(widest(out)).toBeLessThanOrEqual(80)
    const none = compared(BEFORE, BEFORE, ...small).outlook
    expect(none?.differences.life_days.mean).toBe(0)
  })

  it('tells its two forms apart, and says which option belongs to which', () => {
    const alone = run('compare', BEFORE)
    expect(alone).toMatchObject({ code: 2, out: '' })
    expect(alone.err).toContain('name a second recording')
    expect(run('compare', BEFORE, AFTER, '--html', 'x.html').err).toContain('--html goes with the variants')
    expect(run('compare', OUTPOST, '--file', OUTPOST).err).toContain('--file goes with two recordings')
    expect(run('compare', BEFORE, 'nowhere.csv')).toMatchObject({ code: 2, out: '' })
  })

  it('cannot play an outpost from a recording without wakes', () => {
    const rows = Array.from({ length: 400 }, (_, i) => `${i / 100},${0.02 + 1e-5 * Math.sin(i)}`)
    const steady = file('steady.csv', `time (s),current (A)\n${rows.join('\n')}\n`)
    expect(run('read', steady).out).toContain('A steady 20')
    const { code, err } = run('compare', BEFORE, steady, '--file', OUTPOST)
    expect(code).toBe(2)
    expect(err).toContain('steady.csv shows fewer than two whole wakes')
  })
})

describe('docs/recordings.md', () => {
  const page = 'docs/recordings.md'
  const text = readFileSync(page, 'utf8')
  const shown = [...text.matchAll(/```console\n\$ overwinter (.*)\n([\s\S]*?)```/g)].map(
    ([block, command, output]) => ({ block, command, output }),
  )

  it('shows commands', () => expect(shown.length).toBeGreaterThanOrEqual(3))

  // An output that is missing is written anew, as a snapshot would be.
  it.each(shown)('$command', ({ block, command, output }) => {
    const args = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare)
    const { out } = overwinter(...args)
    if (output === '') {
      const filled = `\`\`\`console\n$ overwinter ${command}\n${out}\`\`\``
      writeFileSync(
        page,
        readFileSync(page, 'utf8').replace(block, () => filled),
      )
    } else expect(out).toBe(output)
  })

  it.each([...text.matchAll(/```yaml\n([\s\S]*?)```/g)].map(([, yaml]) => yaml))('instrument %#', (yaml) => {
    expect(run('read', BEFORE, '--instrument', file('documented.yaml', yaml)).code).toBe(0)
  })
})
