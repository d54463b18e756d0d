/** A panel stated another way: what is known of it is carried over, as far as the program makes it out. */
import { withEntry, withoutEntry } from '../../outpost/file/edit-entry.ts'
import { formatQuantity } from '../../quantity/format.ts'
import type { Panel } from '../../supply/supply.ts'
import type { DocumentEdit } from '../form/form.ts'

export type PanelKind = 'none' | 'rated' | 'sheet'

const SUPPLY = ['supply'] as const
const PANEL = ['supply', 'panel'] as const
const SHEET_KEYS = ['open circuit', 'short circuit', 'maximum power']
/** Half a watt at 6 V: a hand's breadth, as many are. */
const USUAL: Pick<Panel<number>, 'openCircuit_V' | 'shortCircuit_A' | 'maximumPower_V' | 'maximumPower_A'> = {
  openCircuit_V: 7.3,
  shortCircuit_A: 0.09,
  maximumPower_V: 6,
  maximumPower_A: 0.083,
}

/** `panel` is the compiled one, null where there is none yet. */
export function panelEdits(from: PanelKind, to: PanelKind, panel: Panel<number> | null): DocumentEdit[] {
  if (from === to) return []
  if (to === 'none') return [(document) => withoutEntry(document, PANEL)]
  const entries = to === 'rated' ? ratedEntries(panel ?? USUAL) : sheetEntries(panel ?? USUAL)
  if (from === 'none') return [(document) => withEntry(document, SUPPLY, 'panel', entries)]
  return [
    ...Object.entries(entries).map(
      ([key, value]): DocumentEdit =>
        (document) =>
          withEntry(document, PANEL, key, value),
    ),
    ...(to === 'rated' ? SHEET_KEYS : ['rated']).map(
      (key): DocumentEdit =>
        (document) =>
          withoutEntry(document, [...PANEL, key]),
    ),
  ]
}

const volts = (value: number): string => formatQuantity(value, 'voltage', { digits: 3 })
const amperes = (value: number): string => formatQuantity(value, 'current', { digits: 3 })

const ratedEntries = ({ maximumPower_V, maximumPower_A }: typeof USUAL): Record<string, string> => ({
  rated: `${formatQuantity(maximumPower_V * maximumPower_A, 'power', { digits: 3 })} at ${volts(maximumPower_V)}`,
})

const sheetEntries = (panel: typeof USUAL): Record<string, string> => ({
  'open circuit': volts(panel.openCircuit_V),
  'short circuit': amperes(panel.shortCircuit_A),
  'maximum power': `${volts(panel.maximumPower_V)} at ${amperes(panel.maximumPower_A)}`,
})
