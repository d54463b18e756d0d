/** A point of the frontier taken over into the file: its cell, its panel, its interval, each as an edit one can undo. */
import type { Sized } from '../../decisions/sizing.ts'
import type { Path } from '../../outpost/file/diagnostic.ts'
import { formatQuantity } from '../../quantity/format.ts'
import { type Form, useForm } from '../form/form.ts'
import { scaledText } from './scaled-text.ts'

export interface Chosen {
  readonly capacity_C: number
  readonly panel_W: number | null
  readonly interval_s: number | null
}

const CELL: Path = ['supply', 'cell']
const PANEL: Path = ['supply', 'panel']

/** Against `own`, the design that was sized; changes nothing that is within rounding of it. */
export function useTakeDesign(): (own: Sized, chosen: Chosen) => void {
  const form = useForm()
  return (own, chosen) => {
    const { capacity_C, panel_W, interval_s } = chosen
    if (differs(capacity_C, own.capacity_C)) takeCell(form, own.capacity_C, capacity_C)
    if (panel_W !== null && own.panel_W !== null && differs(panel_W, own.panel_W))
      takePanel(form, panel_W / own.panel_W)
    if (interval_s !== null && own.interval_s !== null && differs(interval_s, own.interval_s))
      takeInterval(form, interval_s)
  }
}

const differs = (a: number, b: number): boolean => Math.abs(a / b - 1) > 1e-3

function takeCell(form: Form, from_C: number, to_C: number): void {
  const key = textAt(form, [...CELL, 'capacitance']) === '' ? 'capacity' : 'capacitance'
  const written = scaledText(textAt(form, [...CELL, key]), to_C / from_C)
  form.setValue([...CELL, key], written ?? formatQuantity(to_C, 'charge', { digits: 3 }), 'the cell')
}

function takePanel(form: Form, factor: number): void {
  for (const key of ['rated', 'short circuit', 'maximum power']) {
    const scaled = scaledText(textAt(form, [...PANEL, key]), factor)
    if (scaled !== null) form.setValue([...PANEL, key], scaled, 'the panel')
  }
}

function takeInterval(form: Form, interval_s: number): void {
  const key = ['rate', 'rest', 'clock minutes'].find((each) => textAt(form, ['cadence', each]) !== '')
  if (key === undefined) return
  const text =
    key === 'clock minutes' ? String(Math.round(interval_s / 60)) : formatQuantity(interval_s, 'duration')
  form.setValue(['cadence', key], text, 'the interval')
}

function textAt(form: Form, path: Path): string {
  const value = form.valueAt(path)
  return value.kind === 'text' ? value.text : ''
}
