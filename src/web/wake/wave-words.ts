/** The wave in sentences and as a table. */
import { type FigureTable, plain } from '../figure/figure-table.ts'
import { numberShown, quantityShown, shareShown } from '../look/shown.ts'
import type { WavePart, WaveStep } from './wave-parts.ts'

/** "send batch: 74 mA for 2.4 s, 178 mC, 41 % of this wake; in 50 % of all wakes." */
export function partWords({ name, isPeak, from_s, to_s, current_A, charge_C, ...shares }: WavePart): string {
  const { shareOfCharge, shareOfWakes } = shares
  const current = quantityShown(current_A, 'current', { digits: 3 })
  const duration = quantityShown(to_s - from_s, 'duration', { digits: 3 })
  const charge = quantityShown(charge_C, 'charge', { digits: 3 })
  return `${name}${isPeak ? ', its peak' : ''}: ${current} for ${duration}, ${charge}, ${shareShown(shareOfCharge)} of this wake${oftenWords(shareOfWakes)}.`
}

function oftenWords(share: number): string {
  if (share >= 1) return ''
  return share > 0 ? `; in ${shareShown(share)} of all wakes` : '; in no wake, as written'
}

export interface MeanWake {
  readonly duration_s: number
  readonly charge_C: number
}

export function waveCaption(steps: readonly WaveStep[], mean: MeanWake): string {
  const parts = steps.flatMap((step) => step.parts)
  const total_s = steps.at(-1)?.to_s ?? 0
  const charge_C = parts.reduce((sum, part) => sum + part.charge_C, 0)
  const byCharge = steps
    .map(({ step, parts: own }) => ({
      name: step.name,
      share: own.reduce((sum, part) => sum + part.shareOfCharge, 0),
    }))
    .sort((a, b) => b.share - a.share)
  const duration = (s: number) => quantityShown(s, 'duration', { digits: 3 })
  const charge = (C: number) => quantityShown(C, 'charge', { digits: 3 })
  const isEach = parts.every(({ shareOfWakes }) => shareOfWakes >= 1)
  const drawn = `Drawn is a wake in which every step has its turn and is done at the first try: ${duration(total_s)} and ${charge(charge_C)}, of which ${byCharge[0].name} takes ${shareShown(byCharge[0].share)}.`
  const average = ` The average wake, ${isEach ? '' : 'without the steps that are left out of it and '}with what tries that fail cost, lasts ${duration(mean.duration_s)} and takes ${charge(mean.charge_C)}.`
  return `${drawn}${average} Currents are those at the device's rail; standing drains flow on beside them.`
}

export function waveTable(steps: readonly WaveStep[]): FigureTable {
  return {
    head: [
      'part',
      'from (s)',
      'to (s)',
      'current (mA)',
      'charge (mC)',
      'share of this wake (%)',
      'share of all wakes (%)',
    ],
    rows: steps
      .flatMap((step) => step.parts)
      .map((part) => [
        `${part.name}${part.isPeak ? ', its peak' : ''}`,
        plain(part.from_s),
        plain(part.to_s),
        plain(1000 * part.current_A),
        plain(1000 * part.charge_C),
        plain(100 * part.shareOfCharge),
        plain(100 * part.shareOfWakes),
      ]),
  }
}

export const tickWords = (value_s: number, unit_s: number): string => numberShown(value_s / unit_s)
