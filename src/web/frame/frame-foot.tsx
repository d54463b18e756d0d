/** Where the work is kept, and what the tool does not answer for. */
import { useState } from 'react'
import { useFolder } from '../draft/folder.ts'
import { useRoute } from '../route.ts'
import { useAnswers } from '../verdict/answers.ts'

export function FrameFoot() {
  const folder = useFolder()
  const { forecast } = useAnswers()
  return (
    <footer className="foot">
      {forecast !== null && forecast.cautions.length > 0 && (
        <section aria-labelledby="care">
          <h2 id="care">Take care</h2>
          <ul>
            {forecast.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      )}
      <ViewLink />
      {folder.is === 'there' && (
        <p>
          {folder.folder.isScratch
            ? `These are the examples, copied to ${folder.folder.path}: change what you like. To keep your own, start Overwinter in a folder of yours.`
            : `Everything is kept in ${folder.folder.path}, and nowhere else.`}{' '}
          Nothing is sent anywhere. Makers' data sheets, local codes and licensed practice come before what is
          reckoned here.
        </p>
      )}
    </footer>
  )
}

/** Page, file, variant and whatever the page keeps stand in the address. */
function ViewLink() {
  const route = useRoute()
  const [copied, setCopied] = useState<string | null>(null)
  const address = location.href
  const copy = () => {
    const show = () => void prompt('This address leads to what you see:', address)
    // Pages at a network address have no clipboard.
    if (navigator.clipboard === undefined) show()
    else navigator.clipboard.writeText(address).then(() => setCopied(address), show)
  }
  return (
    <p data-page={route.page}>
      <button type="button" className="quiet" onClick={copy}>
        Copy a link to this view
      </button>{' '}
      {copied === address && <span role="status">Copied.</span>}
    </p>
  )
}
