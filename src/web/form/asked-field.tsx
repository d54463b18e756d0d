/** A field of a question, which is not of the file: what is typed, and what is wrong with it. */
import { type ReactElement, useId, useState } from 'react'

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

/** The texts of a question's fields, and the field of each by its key. */
export function useAsked<Key extends string>(empty: Readonly<Record<Key, string>>) {
  const [texts, setTexts] = useState(empty)
  const field = (
    key: Key,
    label: string,
    { problem }: { readonly problem: string | null },
    placeholder: string,
  ): ReactElement => (
    <AskedField
      label={label}
      text={texts[key]}
      onText={(text) => setTexts({ ...texts, [key]: text })}
      placeholder={placeholder}
      problem={problem}
    />
  )
  return [texts, field] as const
}
