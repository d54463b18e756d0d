/**
 * A design of the frontier as edits of the file. Each value is set from the text that was sized, whatever stands there
 * now, so that one square always writes the same, and that of the design itself brings its own values back.
 */
import type { Sized } from '../../decisions/sizing.ts'
import type { Path } from '../../outpost/file/diagnostic.ts'
import type { OutpostDocument } from '../../outpost/file/document.ts'
import { withValue } from '../../outpost/file/edit-value.ts'
import { valueAt } from '../../outpost/file/field-value.ts'
import { formatQuantity } from '../../quantity/format.ts'
import type { DocumentEdit } from '../form/form.ts'
import { scaledText } from './scaled-text.ts'
import { isPlayedAsWritten } from './variant-own.ts'

/** Null: the design has no panel, or no interval. */
export type Size = Pick<Sized, 'capacity_C' | 'panel_W' | 'interval_s'>

/** What the frontier is of. */
export interface SizedText {
  readonly document: OutpostDocument
  /** Of the file; null where it was sized as written. */
  readonly variant: string | null
  readonly own: Size
}

export type Taken =
  | { readonly ok: true; readonly edits: readonly DocumentEdit[] }
  /** A sentence: why nothing of it can be written, and what to do. */
  | { readonly ok: false; readonly why: string }

interface Part {
  readonly name: string
  /** Where the file may say it. */
  readonly paths: readonly Path[]
  readonly own: number | null
  readonly chosen: number | null
  /** What to write at a path at which the sized file says `text`, which is empty where it says nothing; null: leave it. */
  readonly written: (path: Path, text: string, factor: number) => string | null
}

/** `now` is the file that is written to. */
export function designEdits(sized: SizedText, now: OutpostDocument, chosen: Size): Taken {
  const { document, variant, own } = sized
  const parts: readonly Part[] = [
    {
      name: 'cell',
      paths: [
        ['supply', 'cell', 'capacitance'],
        ['supply', 'cell', 'capacity'],
      ],
      own: own.capacity_C,
      chosen: chosen.capacity_C,
      written: (path, text, factor) =>
        text === '' && (path.at(-1) === 'capacitance' || textAt(document, CAPACITANCE) !== '')
          ? null
          : scaled(text, factor, () => formatQuantity(chosen.capacity_C, 'charge', { digits: 3 })),
    },
    {
      name: 'panel',
      paths: ['rated', 'short circuit', 'maximum power'].map((key) => ['supply', 'panel', key]),
      own: own.panel_W,
      chosen: chosen.panel_W,
      written: (_, text, factor) => (text === '' ? null : scaled(text, factor, () => text)),
    },
    {
      name: 'cadence',
      paths: ['rest', 'rate', 'clock minutes'].map((key) => ['cadence', key]),
      own: own.interval_s,
      chosen: chosen.interval_s,
      written: (path, text, factor) =>
        text === '' || isSame(factor) ? text || null : intervalText(path, chosen.interval_s ?? 0),
    },
  ]
  const edits: DocumentEdit[] = []
  for (const { name, paths, own, chosen, written } of parts) {
    if (own === null || chosen === null) continue
    const factor = chosen / own
    if (paths.some((path) => !isPlayedAsWritten(document, variant, path))) {
      if (isSame(factor)) continue
      return {
        ok: false,
        why: `The variant “${variant}” has a ${name} of its own, which a press cannot change. Change it in the text, or choose “as written” and size that.`,
      }
    }
    for (const path of paths) {
      const text = textAt(document, path)
      const next = written(path, text, factor)
      if (next === null) continue
      if (text !== '' && textAt(now, path) === '')
        return {
          ok: false,
          why: `The ${name} of the file is written otherwise than when it was sized. Size it again.`,
        }
      edits.push((each) => withValue(each, path, next))
    }
  }
  return { ok: true, edits }
}

const CAPACITANCE: Path = ['supply', 'cell', 'capacitance']

/** Within the rounding of what is written. */
const isSame = (factor: number): boolean => Math.abs(factor - 1) < 1e-3

/** Where the sized file says nothing, and its own design is taken, nothing is written either. */
function scaled(text: string, factor: number, otherwise: () => string): string {
  if (isSame(factor)) return text
  return scaledText(text, factor) ?? otherwise()
}

const intervalText = (path: Path, interval_s: number): string =>
  path.at(-1) === 'clock minutes'
    ? String(Math.round(interval_s / 60))
    : formatQuantity(interval_s, 'duration')

function textAt(document: OutpostDocument, path: Path): string {
  const value = valueAt(document, path)
  return value.kind === 'text' ? value.text : ''
}
