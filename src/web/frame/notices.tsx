/** What happened that the user should know, and what only the user can decide. */
import { settle, useDraft } from '../draft/keeper.ts'
import { useRefusedEdit } from '../draft/refused-edit.ts'
import { useConnected } from '../server/changes.ts'

export function Notices() {
  const draft = useDraft()
  const refused = useRefusedEdit()
  const connected = useConnected()
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
      {draft?.notice != null && <p className="problem note">{draft.notice}</p>}
    </div>
  )
}
