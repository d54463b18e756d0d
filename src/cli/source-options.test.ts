import { Command } from 'commander'
import { expect, test } from 'vitest'
import { UnclearSource } from '../recording/unclear-source.ts'
import { Refusal } from '../workbench/refusal.ts'
import { addSourceOptions, readChoices, withOptions } from './source-options.ts'

function chosen(...args: string[]) {
  const command = addSourceOptions(new Command())
    .exitOverride()
    .configureOutput({ writeErr: () => {} })
  return readChoices(command.parse(args, { from: 'user' }).opts())
}

test('columns, units, rate and scale reach the readers', () => {
  expect(
    chosen(
      '--column',
      'current=3',
      '--column',
      'time = t / s',
      '--unit',
      'mA',
      '--unit',
      'ms',
      '--rate',
      '1 kHz',
    ),
  ).toEqual({ current: 3, time: 't / s', currentUnit: 'mA', timeUnit: 'ms', rate_Hz: 1000 })
  expect(chosen('--scale', '0.5 uA').scale_A).toBeCloseTo(5e-7, 12)
  expect(chosen()).toEqual({})
})

test.each([
  [['--column', 'power=3'], /"current=3"/],
  [['--column', '3'], /"current=3"/],
  [['--unit', 'mAh'], /mA, V or ms/],
  [['--rate', 'often'], /above 0 Hz/],
  [['--scale', '0 A'], /above zero/],
])('%j is refused', (args, message) => {
  expect(() => chosen(...args)).toThrow(message)
})

test('only a source that leaves something open is answered with options', () => {
  const open = new Refusal('x cannot be read: no column of current was found.')
  open.cause = new UnclearSource('no column of current was found', ['current column', 'unit'])
  expect((withOptions(open) as Error).message).toMatch(
    /found\. Or say it here, as with --column current=2 and --unit mA\.$/,
  )
  const other = new Refusal('x is empty')
  expect(withOptions(other)).toBe(other)
})
