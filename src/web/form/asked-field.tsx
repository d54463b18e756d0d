/** A field of a question, which is not of the file: what is typed, and what is wrong with it. */
import { useId } from 'react'

export interface AskedFieldProps {
  readonly label: string
  readonly text: string
  readonly onText: (text: string) => void
  /** What holds where nothing is typed. */
  readonly placeholder?: string
  /** In a sentence; null where all is well. */
  readonly problem?: string | null
}

export function AskedField({ label, text, onText, placeholder, problem = null }: AskedFieldProps) {
  const id = useId()
  return (
    <div className={`field ${problem === null ? '' : 'has-error'}`}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={text}
        placeholder={placeholder}
        autoComplete="off"
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${id}-problem`}
        onChange={(event) => onText(event.target.value)}
      />
      {problem !== null && (
        <p className="problem error" id={`${id}-problem`}>
          {problem}
        </p>
      )}
    </div>
  )
}
