/** One value of the outpost file, typed as people write it; what is wrong with it stands below, in the reader's words. */
import { type ReactNode, useId } from 'react'
import type { Diagnostic, Path } from '../../outpost/file/diagnostic.ts'
import { pathText } from '../../outpost/file/diagnostic.ts'
import { useAnswers } from '../verdict/answers.ts'
import { useForm } from './form.ts'
import { useTyped } from './use-typed.ts'

export interface FieldProps {
  readonly path: Path
  readonly label: string
  /** Shown in an empty field: what is taken then. Left out, the assumption that the program states is shown. */
  readonly placeholder?: string
  /** Below the field, where a word helps. */
  readonly hint?: ReactNode
  /** Offered while typing. */
  readonly offers?: readonly string[]
  /** The label is for assistive technology alone, as in a table whose head says it. */
  readonly isLabelHidden?: boolean
  /** Whoever placed the field shows what is wrong with it, as a table does below its row: by `problemId`. */
  readonly isProblemElsewhere?: boolean
  readonly className?: string
}

/** Of the element that tells what is wrong at a path, where that is not the field itself. */
export const problemId = (path: Path): string => `problem-${pathText(path).replaceAll(/[^\w-]/g, '-')}`

export function Field(props: FieldProps) {
  const { path, label, placeholder, hint, offers, isLabelHidden, isProblemElsewhere, className } = props
  const id = useId()
  const { text, source, isNested, onText, onLeave } = useTyped(path, label)
  const problems = useProblems(path)
  const assumed = useAssumption(path)
  const [first] = problems
  const problem = isProblemElsewhere ? problemId(path) : `${id}-problem`
  const described = [first && problem, hint && `${id}-hint`].filter(Boolean).join(' ')
  return (
    <div className={`field ${first ? `has-${first.severity}` : ''} ${className ?? ''}`}>
      <label htmlFor={id} className={isLabelHidden ? 'for-ears' : undefined}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        value={text}
        placeholder={placeholder ?? assumed ?? ''}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        aria-invalid={first?.severity === 'error'}
        aria-describedby={described === '' ? undefined : described}
        list={offers === undefined ? undefined : `${id}-offers`}
        data-path={pathText(path)}
        title={source === null ? undefined : `source: ${source}`}
        disabled={isNested}
        onChange={(event) => onText(event.target.value)}
        onBlur={onLeave}
      />
      {isNested && <p className="hint">Written out in the text.</p>}
      {offers !== undefined && (
        <datalist id={`${id}-offers`}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
      {hint !== undefined && (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {first !== undefined && !isProblemElsewhere && <Problem id={problem} {...first} />}
    </div>
  )
}

export interface ChoiceProps
  extends Pick<FieldProps, 'path' | 'label' | 'hint' | 'isLabelHidden' | 'isProblemElsewhere'> {
  /** Value in the file to words on the page; `null` as the key of "left out" is written as the empty text. */
  readonly options: Readonly<Record<string, string>>
}

/** A value that is one of a few words. */
export function Choice({ path, label, options, hint, isLabelHidden, isProblemElsewhere }: ChoiceProps) {
  const id = useId()
  const form = useForm()
  const value = form.valueAt(path)
  const text = value.kind === 'text' ? value.text : ''
  const [first] = useProblems(path)
  const problem = isProblemElsewhere ? problemId(path) : `${id}-problem`
  const known = text in options
  return (
    <div className={`field ${first ? `has-${first.severity}` : ''}`}>
      <label htmlFor={id} className={isLabelHidden ? 'for-ears' : undefined}>
        {label}
      </label>
      <select
        id={id}
        value={text}
        data-path={pathText(path)}
        aria-invalid={first?.severity === 'error'}
        aria-describedby={first ? problem : undefined}
        onChange={(event) => form.setValue(path, event.target.value, label)}
      >
        {!known && <option value={text}>{text === '' ? '–' : text}</option>}
        {Object.entries(options).map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
      {hint !== undefined && <p className="hint">{hint}</p>}
      {first !== undefined && !isProblemElsewhere && <Problem id={problem} {...first} />}
    </div>
  )
}

export function Problem({ id, variant, ...told }: Diagnostic & { readonly id?: string }) {
  const { severity, message, expected, cure } = told
  return (
    <p className={`problem ${severity}`} id={id}>
      {variant !== null && `In the variant “${variant}”: `}
      {sentence(message)} <span className="wanted">Expected: {expected}.</span> {sentence(cure)}
    </p>
  )
}

const sentence = (text: string): string =>
  text === '' ? '' : `${text[0].toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? '' : '.'}`

/** Those that stand at this value, or inside it where the value is written as a mapping with its source. */
export function useProblems(path: Path): readonly Diagnostic[] {
  const { diagnostics } = useAnswers()
  const at = pathText(path)
  return onceEach(
    diagnostics.filter((each) => {
      const there = pathText(each.path)
      return there === at || there === `${at}.is` || there === `${at}.source`
    }),
  )
}

/** What is wrong in the file is wrong in its variants too: said once. */
export function onceEach(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const isSame = (a: Diagnostic, b: Diagnostic) => a.code === b.code && pathText(a.path) === pathText(b.path)
  const own = diagnostics.filter(({ variant }) => variant === null)
  return diagnostics.filter(
    (each, i) =>
      each.variant === null ||
      (!own.some((other) => isSame(other, each)) &&
        diagnostics.findIndex((other) => isSame(other, each)) === i),
  )
}

function useAssumption(path: Path): string | null {
  const { assumptions } = useAnswers()
  const at = pathText(path)
  return assumptions.find((each) => each.path === at)?.text ?? null
}
