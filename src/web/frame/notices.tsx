/** What happened that the user should know, and what only the user can decide. */
import type { Draft } from '../draft/draft.ts'
import { forget, settle, useDraft, useHeld } from '../draft/keeper.ts'
import { useRefusedEdit } from '../draft/refused-edit.ts'
import { useConnected } from '../server/changes.ts'
import { PageLink } from './page-link.tsx'

export function Notices() {
  const draft = useDraft()
  const refused = useRefusedEdit()
  const connected = useConnected()
  const held = useHeld()
  return (
    <div className="notices" aria-live="polite">
      {!connected && (
        <p className="problem error">
          The workbench does not answer. Start it again in a terminal; what you type is kept here until then.
        </p>
      )}
      {draft?.saving.is === 'refused' && <p className="problem error">{draft.saving.why}</p>}
      {refused !== null && <p className="problem error">{refused}</p>}
      {draft?.conflict === 'gone' && (
        <p className="problem error">
          {draft.file} is gone from the folder. What you see is kept here; put the file back, or copy the
          text.
        </p>
      )}
      {draft !== null && draft.conflict !== null && draft.conflict !== 'gone' && (
        <div className="problem error">
          <p>
            {draft.file} was changed on the disk, in the same lines that were changed here. Nothing is written
            until you choose; either way Undo brings back the other.
          </p>
          <details>
            <summary>What stands on the disk</summary>
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
            <pre tabIndex={0}>{draft.conflict.text}</pre>
          </details>
          <button type="button" onClick={() => settle('ours')}>
            Keep what stands here
          </button>{' '}
          <button type="button" onClick={() => settle('theirs')}>
            Take what is on the disk
          </button>
        </div>
      )}
      {held.map((each) => (
        <HeldNotice key={each.file} draft={each} isConnected={connected} />
      ))}
      {draft?.notice != null && <p className="problem note">{draft.notice}</p>}
    </div>
  )
}

interface HeldProps {
  readonly draft: Draft
  readonly isConnected: boolean
}

/** Another outpost's, which was left before it could be saved. */
function HeldNotice({ draft: { file, conflict, saving }, isConnected }: HeldProps) {
  const isOnItsWay = conflict === null && saving.is !== 'refused' && isConnected
  if (isOnItsWay) return null
  const toIt = { file, variant: null }
  if (conflict === 'gone')
    return (
      <div className="problem error">
        <p>
          {file} is gone from the folder. What stood here is kept in this page: put the file back, or{' '}
          <PageLink to={toIt}>open it</PageLink> and copy the text.
        </p>
        <button type="button" onClick={() => forget(file)}>
          Let it go
        </button>
      </div>
    )
  if (conflict !== null)
    return (
      <p className="problem error">
        {file} was changed on the disk, in the same lines that were changed here. What was typed is kept in
        this page, and nothing is written until you <PageLink to={toIt}>open it and choose</PageLink>.
      </p>
    )
  return (
    <p className="problem error">
      What was typed into {file} is not saved yet. It is kept in this page, and saved as soon as that can be
      done: leave the page open. {isConnected && saving.is === 'refused' && `${saving.why} `}
      <PageLink to={toIt}>Open it</PageLink>
    </p>
  )
}
