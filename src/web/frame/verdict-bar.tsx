/** The verdict in words, on top of every page: it moves as one types, and says what it stands on. */
import { counted } from '../../quantity/counted.ts'
import { localised, numberShown, shareShown } from '../look/shown.ts'
import { useAnswers, useMissingVariant } from '../verdict/answers.ts'
import { PageLink } from './page-link.tsx'

export function VerdictBar() {
  const { forecast, isCurrent, isWhole, diagnostics, progress, broken } = useAnswers()
  const missing = useMissingVariant()
  const errors = diagnostics.filter(({ severity }) => severity === 'error')
  const [first] = errors
  return (
    <section
      className={`verdict ${isCurrent ? '' : 'is-stale'}`}
      aria-label="Verdict"
      data-whole={isCurrent && isWhole}
    >
      <p className="verdict-words" aria-live="polite" data-current={isCurrent}>
        {forecast !== null
          ? localised(forecast.outlook.verdict)
          : first === undefined && missing === null
            ? 'Reckoning …'
            : ''}
      </p>
      <p className="verdict-basis">
        {missing !== null && (
          <strong className="error">
            The file has no variant “{missing}”.{' '}
            <PageLink to={{ variant: null }}>Look at it as written</PageLink>.{' '}
          </strong>
        )}
        {broken !== null && <strong>The quick reckoning broke: {broken}. Load the page again. </strong>}
        {first !== undefined && (
          <strong className="error">
            {errors.length === 1 ? 'One thing' : `${errors.length} things`} in the file must be mended first:
            line {first.range.start.line}, {first.message}.{' '}
            {forecast !== null && 'The words above are of the text before. '}
          </strong>
        )}
        {forecast !== null && first === undefined && <Basis />}
        {progress !== null && (
          <span className="progress-words">
            {' '}
            The whole is being played: <progress value={progress} aria-label="Runs played" />{' '}
            {shareShown(progress)}
          </span>
        )}
      </p>
    </section>
  )
}

function Basis() {
  const { forecast, from, isCurrent } = useAnswers()
  if (forecast === null) return null
  const { runs, years } = forecast.outlook
  const size = `${counted(runs, 'run', numberShown)} of ${counted(years, 'year', numberShown)}`
  return (
    <span data-from={from}>
      {from === 'server'
        ? `Full reckoning: ${size}.`
        : `Quick reckoning while you type: ${size}, in coarser steps.`}
      {!isCurrent && ' Reckoning anew …'}
    </span>
  )
}
