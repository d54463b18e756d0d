/** The Outlook page: years of it, played; what kills it, when, and whether what must hold does. */
import { Waiting } from '../frame/waiting.tsx'
import { localised } from '../look/shown.ts'
import { AimsPart, FactsPart } from '../outlook/answers-part.tsx'
import { DischargeFigure } from '../outlook/discharge-figure.tsx'
import { LifeFigure } from '../outlook/life-figure.tsx'
import { OtherwisePart, OutlookTakeAway } from '../outlook/otherwise-part.tsx'
import '../outlook/outlook.css'
import { YearFigure } from '../outlook/year-figure.tsx'
import { useAnswers } from '../verdict/answers.ts'

export default function OutlookPage() {
  const { forecast, from, diagnostics } = useAnswers()
  if (forecast === null)
    return diagnostics.some(({ severity }) => severity === 'error') ? (
      <p>
        Nothing can be played before what is wrong in the file is mended: it is marked in the forms, and in
        the text.
      </p>
    ) : (
      <Waiting what="the outlook" />
    )
  const { outlook, replay, assumptions, weather } = forecast
  return (
    <>
      {outlook.rechargeable && outlook.byDay.length > 0 && <YearFigure outlook={outlook} />}
      <AimsPart outlook={outlook} />
      {outlook.rechargeable && from === 'what-if' ? (
        // A quick run of a device with a panel is one winter, which says nothing of how long it lives.
        <p className="waiting">How long it lives stands here once the whole is played.</p>
      ) : (
        <LifeFigure outlook={outlook} />
      )}
      {!outlook.rechargeable && <DischargeFigure outlook={outlook} />}
      <FactsPart outlook={outlook} replay={replay} />
      <section className="part">
        <h2>What it stands on</h2>
        <p>The weather is {localised(weather)}.</p>
        <details>
          <summary>{assumptions.length} values that were taken, and where each comes from</summary>
          <ul className="assumed">
            {assumptions.map(({ path, text, source }) => (
              <li key={`${path} ${text}`}>
                <code>{path}</code>: {localised(text)} <span className="wanted">({source})</span>
              </li>
            ))}
          </ul>
        </details>
      </section>
      <OutlookTakeAway />
      <OtherwisePart />
    </>
  )
}
