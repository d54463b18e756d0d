/** Where the work is kept, and what the tool does not answer for. */
import { useFolder } from '../draft/folder.ts'
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
