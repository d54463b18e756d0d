/** What the address of the bench says: which recording, how it is looked at, what was noted. A link shows others the same. */
import { useMemo } from 'react'
import { go, type Route, useRoute } from '../route.ts'
import type { ScaleKind } from './trace/current-scale.ts'
import type { Window } from './trace/window.ts'

export interface BenchAddress {
  readonly recording: string | null
  /** For a source that has no time. */
  readonly rate_Hz: number | null
  /** What is in sight; null for the whole. */
  readonly window: Window | null
  readonly notes: readonly Window[]
  readonly scale: ScaleKind
  readonly fits: boolean
  readonly instrument: string | null
  /** Where its range was set by hand: `2 min=400 mA`. */
  readonly ranges: readonly string[]
  readonly voltage_V: number | null
  /** Another recording beside it. */
  readonly beside: string | null
}

const DIGITS = 12
const written = (x: number): string => String(Number(x.toPrecision(DIGITS)))

export function benchOf(more: Route['more']): BenchAddress {
  const number = (name: string) => numberOf(more[name])
  return {
    recording: more.recording ?? null,
    rate_Hz: above(number('rate')),
    window: windowOf(number('from'), number('to')),
    notes: (more.notes ?? '').split('_').flatMap((text) => {
      const [from, to] = text.split('~').map(numberOf)
      return windowOf(from ?? null, to ?? null) ?? []
    }),
    scale: more.scale === 'linear' ? 'linear' : 'log',
    fits: more.height === 'fit',
    instrument: more.instrument ?? null,
    ranges: (more.ranges ?? '').split(';').filter((text) => text !== ''),
    voltage_V: above(number('voltage')),
    beside: more.beside ?? null,
  }
}

export function moreOf(bench: BenchAddress): Route['more'] {
  const { recording, rate_Hz, window, notes, scale, fits, instrument, ranges, voltage_V, beside } = bench
  return {
    ...(recording === null ? {} : { recording }),
    ...(rate_Hz === null ? {} : { rate: written(rate_Hz) }),
    ...(window === null ? {} : { from: written(window.from_s), to: written(window.to_s) }),
    ...(notes.length === 0
      ? {}
      : { notes: notes.map(({ from_s, to_s }) => `${written(from_s)}~${written(to_s)}`).join('_') }),
    ...(scale === 'log' ? {} : { scale }),
    ...(fits ? { height: 'fit' } : {}),
    ...(instrument === null ? {} : { instrument }),
    ...(ranges.length === 0 ? {} : { ranges: ranges.join(';') }),
    ...(voltage_V === null ? {} : { voltage: written(voltage_V) }),
    ...(beside === null ? {} : { beside }),
  }
}

/** Another recording is looked at afresh; with what it is measured stays. */
export const ofRecording = (
  { instrument, voltage_V, scale }: BenchAddress,
  recording: string | null,
  rate_Hz: number | null = null,
): BenchAddress => ({ ...benchOf({}), instrument, voltage_V, scale, recording, rate_Hz })

export function useBench(): readonly [
  BenchAddress,
  (change: Partial<BenchAddress>, quietly?: boolean) => void,
] {
  const { more } = useRoute()
  const bench = useMemo(() => benchOf(more), [more])
  const change = useMemo(
    () =>
      (part: Partial<BenchAddress>, quietly = false) =>
        go({ more: moreOf({ ...bench, ...part }) }, { quietly }),
    [bench],
  )
  return [bench, change]
}

function numberOf(text: string | undefined): number | null {
  const value = Number(text)
  return text === undefined || text.trim() === '' || !Number.isFinite(value) ? null : value
}

const above = (x: number | null): number | null => (x !== null && x > 0 ? x : null)

const windowOf = (from_s: number | null, to_s: number | null): Window | null =>
  from_s !== null && to_s !== null && from_s < to_s ? { from_s, to_s } : null
