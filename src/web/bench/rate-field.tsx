/** A sampling rate as people write it: `1 kHz`, or a number alone, in samples a second. */
import { useId } from 'react'
import { parseQuantity } from '../../quantity/parse-quantity.ts'

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
  const id = useId()
  const isWrong = rateOf(text) === undefined
  return (
    <div className={`field ${isWrong ? 'has-error' : ''}`}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={text}
        placeholder={placeholder}
        autoComplete="off"
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${id}-problem` : undefined}
        onChange={(event) => onText(event.target.value)}
      />
      {isWrong && (
        <p className="problem error" id={`${id}-problem`}>
          A rate is wanted, as in “1 kHz”.
        </p>
      )}
    </div>
  )
}
