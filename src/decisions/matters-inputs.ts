/** What a forecast does not know: every uncertain number of the file, the cell out of its lot, and the weather. */
import { uncertainInputs } from '../outpost/inputs.ts'
import type { Outpost } from '../outpost/outpost.ts'

export interface MattersInput {
  /** As in the compiled design; null for what stands in no one place of the file. */
  readonly path: string | null
  readonly name: string
  readonly kind: 'number' | 'cell' | 'weather'
}

/** In the order in which `drawn` uses them up; the weather last. */
export function mattersInputs(outpost: Outpost): MattersInput[] {
  const numbers = uncertainInputs(outpost).map(({ path }): MattersInput => {
    return { path, name: nameOf(path, outpost), kind: 'number' }
  })
  const lot: MattersInput = { path: null, name: 'cell: capacity from cell to cell', kind: 'cell' }
  const weather: MattersInput = { path: null, name: 'the weather', kind: 'weather' }
  return [...numbers, ...(outpost.supply.pack.cell.scatter > 0 ? [lot] : []), weather]
}

const WORDS: Readonly<Record<string, string>> = {
  duration_s: 'how long',
  current_A: 'current',
  'peak.current_A': 'peak current',
  'peak.duration_s': 'how long the peak',
  'retries.probability': 'how often a try fails',
  'retries.failedDuration_s': 'how long a failed try',
  'retries.backoff_s': 'wait before a further try',
  'cadence.schedule.rest_s': 'rest between wakes',
  'cadence.schedule.period_s': 'time from wake to wake',
  'cadence.events.perDay': 'events a day',
  rest_A: 'rest: current',
  'pack.capacity_C': 'cell: capacity',
  'pack.initial': 'cell: charge at the start',
  'pack.age_s': 'cell: age at the start',
}

function nameOf(path: string, outpost: Outpost): string {
  const [section, ...rest] = path.split('.')
  const within = rest.join('.')
  const step = /^wake\.(steps|boot)\[(\d+)\]\.(.+)$/.exec(path)
  if (step !== null) {
    const [, list, index, field] = step
    return `${outpost.wake[list as 'steps' | 'boot'][Number(index)].name}: ${WORDS[field] ?? plain(field)}`
  }
  const drain = /^wake\.standing\[(\d+)\]/.exec(path)
  if (drain !== null) return `${outpost.wake.standing[Number(drain[1])].name}: current`
  const row = /^wake\.cadence\.thrift\[(\d+)\]\.(.+)$/.exec(path)
  if (row !== null) return `thrift row ${Number(row[1]) + 1}: ${plain(row[2])}`
  return WORDS[within] ?? (section === 'supply' ? plain(within).replace(' ', ': ') : plain(within))
}

/** `charger.dropOut_V` as `charger drop out`. */
const plain = (path: string) =>
  path
    .replace(/_(per_)?[A-Za-z0-9_]+(?=\.|$)/g, '')
    .replace(/[.[\]]+/g, ' ')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .trim()
