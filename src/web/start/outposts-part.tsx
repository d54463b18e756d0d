/** What is in the folder already. */
import { useFolder } from '../draft/folder.ts'
import { PageLink } from '../frame/page-link.tsx'
import { Waiting } from '../frame/waiting.tsx'

export function OutpostsPart() {
  const looked = useFolder()
  if (looked.is === 'looking') return <Waiting what="the folder" />
  if (looked.is === 'refused') return <p className="problem error">{looked.why}</p>
  const { outposts, recordings, path, isScratch } = looked.folder
  return (
    <section className="part" aria-labelledby="in-the-folder">
      <h2 id="in-the-folder">{isScratch ? 'The examples' : 'In this folder'}</h2>
      {isScratch && (
        <p>
          There was no outpost where Overwinter was started, so here is a copy of its examples to play with,
          in <code>{path}</code>.
        </p>
      )}
      {outposts.length === 0 ? (
        <p>
          There is no outpost file (<code>*.outpost.yaml</code>) in <code>{path}</code> yet: the sentence
          above makes one.
        </p>
      ) : (
        <ul className="outposts">
          {outposts.map(({ file, title }) => (
            <li key={file}>
              <PageLink to={{ page: 'wake', file, variant: null }}>{title ?? file}</PageLink>{' '}
              <code>{file}</code>
              {title === null && <span className="hint"> cannot be read as it is; open it to see why</span>}
            </li>
          ))}
        </ul>
      )}
      {recordings.length > 0 && (
        <p>
          {recordings.length === 1 ? 'A recording lies' : `${recordings.length} recordings lie`} here too:{' '}
          <PageLink to={{ page: 'bench' }}>to the Bench</PageLink>.
        </p>
      )}
    </section>
  )
}
