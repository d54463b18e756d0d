/** The pages, in the order of the job. */
import { PAGES, type PageName, useRoute } from '../route.ts'
import { PageLink } from './page-link.tsx'

const WORDS: Readonly<Record<PageName, string>> = {
  start: 'Start',
  wake: 'Wake',
  supply: 'Supply',
  place: 'Place',
  outlook: 'Outlook',
  choices: 'Choices',
  bench: 'Bench',
}

export interface PageNavProps {
  readonly isTextShown: boolean
  /** Null where there is no text to show. */
  readonly onText: (() => void) | null
}

export function PageNav({ isTextShown, onText }: PageNavProps) {
  const { page } = useRoute()
  return (
    <nav className="pages" aria-label="Pages">
      <ol>
        {PAGES.map((name) => (
          <li key={name}>
            <PageLink to={{ page: name }} isCurrent={name === page}>
              {WORDS[name]}
            </PageLink>
          </li>
        ))}
      </ol>
      {onText !== null && (
        <button type="button" className="quiet" aria-expanded={isTextShown} onClick={onText}>
          {isTextShown ? 'Hide the text' : 'Show the text'}
        </button>
      )}
    </nav>
  )
}
