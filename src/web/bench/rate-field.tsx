/** A sampling rate as people write it: `1 kHz`, or a number alone, in samples a second. */
import { parseQuantity } from '../../quantity/parse-quantity.ts'
import { AskedField } from '../form/asked-field.tsx'

export interface RateFieldProps {
  readonly label: string
  readonly text: string
  readonly placeholder?: string
  readonly onText: (text: string) => void
}

/** Null where nothing is written; undefined where it is no rate. */
export function rateOf(text: string): number | null | undefined {
  const trimmed = text.trim()
  if (trimmed === '') return null
  const read = parseQuantity(
    /[a-z]/i.test(trimmed.replace(/e[+-]?\d+$/i, '')) ? trimmed : `${trimmed} Hz`,
    'frequency',
  )
  return read.ok && read.value > 0 ? read.value : undefined
}

export function RateField({ label, text, placeholder = '', onText }: RateFieldProps) {
  const problem = rateOf(text) === undefined ? 'A rate is wanted, as in “1 kHz”.' : null
  return <AskedField label={label} text={text} placeholder={placeholder} problem={problem} onText={onText} />
}
