/** Name of the program, what is open, how it stands to the disk, undo and redo. */
import { useFolder } from '../draft/folder.ts'
import { close, redo, undo, useDraft } from '../draft/keeper.ts'
import { go, useRoute } from '../route.ts'
import { useConnected } from '../server/changes.ts'
import { useAnswers } from '../verdict/answers.ts'
import { PageLink } from './page-link.tsx'

export function FrameHead() {
  const draft = useDraft()
  const folder = useFolder()
  const { file, variant } = useRoute()
  const { variants } = useAnswers()
  const outposts = folder.is === 'there' ? folder.folder.outposts : []
  const choose = (chosen: string) => {
    if (chosen === '') {
      close()
      go({ page: 'start', file: null, variant: null })
    } else go({ file: chosen, variant: null })
  }
  return (
    <header className="head">
      <PageLink to={{ page: 'start' }} className="name">
        Overwinter
      </PageLink>
      <label className="inline">
        Outpost{' '}
        <select value={file ?? ''} onChange={(event) => choose(event.target.value)}>
          <option value="">none</option>
          {file !== null && !outposts.some((each) => each.file === file) && <option>{file}</option>}
          {outposts.map((each) => (
            <option key={each.file} value={each.file}>
              {each.title ?? each.file}
            </option>
          ))}
        </select>
      </label>
      {draft !== null && variants.length > 0 && (
        <label className="inline">
          Variant{' '}
          <select
            value={variant ?? ''}
            onChange={(event) => go({ variant: event.target.value === '' ? null : event.target.value })}
          >
            <option value="">as written</option>
            {variants.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
      )}
      {draft !== null && (
        <div className="head-end">
          <SavingWords />
          <button type="button" className="quiet" onClick={undo} disabled={draft.past.length === 0}>
            Undo
          </button>
          <button type="button" className="quiet" onClick={redo} disabled={draft.future.length === 0}>
            Redo
          </button>
        </div>
      )}
    </header>
  )
}

function SavingWords() {
  const draft = useDraft()
  const connected = useConnected()
  if (draft === null) return null
  const words = {
    saved: 'saved',
    waiting: 'saving …',
    'under way': 'saving …',
    refused: 'not saved',
  }[draft.saving.is]
  return (
    <span className={`saving ${draft.saving.is}`} role="status" title={draft.file}>
      {draft.conflict !== null ? 'changed in two places' : connected ? words : 'not connected'}
    </span>
  )
}
