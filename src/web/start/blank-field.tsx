/** A blank of the sentence, as wide as what is written in it. */
import { useId } from 'react'
import type { AnswerProblem } from '../../outpost/file/new.ts'

export interface BlankFieldProps {
  readonly label: string
  readonly text: string
  readonly onText: (text: string) => void
  readonly problem: AnswerProblem | undefined
  readonly placeholder?: string
  readonly offers?: readonly string[]
}

export function BlankField({ label, text, onText, problem, placeholder = '', offers }: BlankFieldProps) {
  const id = useId()
  return (
    <span className={`field ${problem === undefined ? '' : 'has-error'}`}>
      <input
        type="text"
        aria-label={label}
        value={text}
        // A browser keeps room for the mark of its list of offers.
        size={Math.max(4, (text === '' ? placeholder : text).length + (offers === undefined ? 0 : 3))}
        placeholder={placeholder}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : 'blank-problems'}
        list={offers === undefined ? undefined : id}
        onChange={(event) => onText(event.target.value)}
      />
      {offers !== undefined && (
        <datalist id={id}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
    </span>
  )
}
