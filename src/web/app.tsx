/** The frame of every page: what is open, the verdict in words, the pages in the order of the job, the file beside. */
import { lazy, Suspense, useEffect, useState } from 'react'
import { lookAtFolder } from './draft/folder.ts'
import { keepInStep, open, redo, undo, useOpened } from './draft/keeper.ts'
import { FrameFoot } from './frame/frame-foot.tsx'
import { FrameHead } from './frame/frame-head.tsx'
import { Notices } from './frame/notices.tsx'
import { PageGuard } from './frame/page-guard.tsx'
import { PageLink } from './frame/page-link.tsx'
import { PageNav } from './frame/page-nav.tsx'
import { VerdictBar } from './frame/verdict-bar.tsx'
import { Waiting } from './frame/waiting.tsx'
import { StartPage } from './pages/start.tsx'
import { type PageName, useRoute } from './route.ts'
import { answerDraft, useMissingVariant } from './verdict/answers.ts'

const PAGE_OF = {
  start: StartPage,
  wake: lazy(() => import('./pages/wake.tsx')),
  supply: lazy(() => import('./pages/supply.tsx')),
  place: lazy(() => import('./pages/place.tsx')),
  outlook: lazy(() => import('./pages/outlook.tsx')),
  choices: lazy(() => import('./pages/choices.tsx')),
  bench: lazy(() => import('./pages/bench.tsx')),
}
const FileSide = lazy(() => import('./text/file-side.tsx'))

/** Pages that are about an outpost, and empty without one. */
const NEEDS_FILE: ReadonlySet<PageName> = new Set(['wake', 'supply', 'place', 'outlook', 'choices'])

export function App() {
  const { page, file } = useRoute()
  const opened = useOpened()
  const [isTextShown, setTextShown] = useState(false)

  useEffect(() => {
    void lookAtFolder()
    const stops = [keepInStep(() => void lookAtFolder()), answerDraft(), undoKeys()]
    return () => {
      for (const stop of stops) stop()
    }
  }, [])
  useEffect(() => {
    if (file !== null && !(opened.is !== 'none' && fileOf(opened) === file)) void open(file)
  }, [file, opened])
  useEffect(() => {
    document.title = `${PAGE_TITLES[page]}${opened.is === 'open' ? ` · ${opened.draft.file}` : ''} · Overwinter`
  }, [page, opened])

  const Page = PAGE_OF[page]
  const isOpen = opened.is === 'open'
  const missing = useMissingVariant()
  return (
    <div className={`frame ${isTextShown && isOpen ? 'with-text' : ''}`}>
      <a className="skip" href="#content">
        Skip to the page
      </a>
      <FrameHead />
      {isOpen && <VerdictBar />}
      <PageNav isTextShown={isTextShown} onText={isOpen ? () => setTextShown(!isTextShown) : null} />
      <Notices />
      <div className="sheets">
        <main id="content" tabIndex={-1}>
          <h1 className="for-ears">{PAGE_TITLES[page]}</h1>
          {NEEDS_FILE.has(page) && !isOpen ? (
            <NothingOpen />
          ) : NEEDS_FILE.has(page) && missing !== null ? (
            <section className="empty">
              <p>
                Nothing can be shown of a variant that is not there.{' '}
                <PageLink to={{ variant: null }}>Look at the file as written</PageLink>, or choose another
                variant above.
              </p>
            </section>
          ) : (
            <PageGuard key={page} title={PAGE_TITLES[page]}>
              <Suspense fallback={<Waiting what="the page" />}>
                <Page />
              </Suspense>
            </PageGuard>
          )}
        </main>
        {isTextShown && isOpen && (
          <Suspense fallback={<Waiting what="the text" />}>
            <FileSide />
          </Suspense>
        )}
      </div>
      <FrameFoot />
    </div>
  )
}

const PAGE_TITLES: Readonly<Record<PageName, string>> = {
  start: 'Start',
  wake: 'Wake',
  supply: 'Supply',
  place: 'Place',
  outlook: 'Outlook',
  choices: 'Choices',
  bench: 'Bench',
}

function fileOf(opened: Exclude<ReturnType<typeof useOpened>, { is: 'none' }>): string {
  return opened.is === 'open' ? opened.draft.file : opened.file
}

function NothingOpen() {
  const opened = useOpened()
  if (opened.is === 'opening') return <Waiting what={opened.file} />
  return (
    <section className="empty">
      {opened.is === 'refused' && <p className="problem error">{opened.why}</p>}
      <p>
        No outpost is open. <PageLink to={{ page: 'start' }}>Choose one on the first page</PageLink>, or begin
        a new one there.
      </p>
    </section>
  )
}

/** Undo and redo of the whole file, wherever the focus is. The text side has no history of its own. */
function undoKeys(): () => void {
  const onKey = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return
    const key = event.key.toLowerCase()
    const isUndo = key === 'z' && !event.shiftKey
    const isRedo = (key === 'z' && event.shiftKey) || key === 'y'
    if (!isUndo && !isRedo) return
    // Fields that are not of the file keep the browser's own undo.
    const at = event.target as HTMLElement
    if (at.matches('input, textarea') && !at.matches('[data-path]')) return
    event.preventDefault()
    if (isUndo) undo()
    else redo()
  }
  addEventListener('keydown', onKey, { capture: true })
  return () => removeEventListener('keydown', onKey, { capture: true })
}
