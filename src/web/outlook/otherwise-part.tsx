/** The outlook played otherwise: more runs, other years, another seed, finer steps, the sky of a weather file. */
import { useId, useState } from 'react'
import { useDraft } from '../draft/keeper.ts'
import { localised } from '../look/shown.ts'
import { useRoute } from '../route.ts'
import { useWork } from '../server/work.ts'
import { SEED, useAnswers } from '../verdict/answers.ts'
import { TakeAway } from '../work/take-away.tsx'
import { stemOf, WorkPart } from '../work/work-part.tsx'
import { AimsPart } from './answers-part.tsx'
import { LifeFigure } from './life-figure.tsx'

export function OtherwisePart() {
  const desk = useWork<'forecast'>()
  const id = useId()
  const [stepsPerHour, setSteps] = useState<1 | 6>(1)
  return (
    <WorkPart
      title="Played otherwise"
      name="forecast"
      lead="With more runs, over other years, from another seed, in finer steps, or under the sky of a weather file of the folder. What stands above stays as it is."
      desk={desk}
      press="Play it"
      plays={{ runs: { label: 'Runs', low: 1, high: 100_000 }, years: true, weather: true }}
      asks={(outpost, play) => ({ work: 'forecast', ...outpost, ...play, stepsPerHour })}
      before={
        <div className="fields">
          <div className="field">
            <label htmlFor={id}>In steps of</label>
            <select
              id={id}
              value={stepsPerHour}
              onChange={(event) => setSteps(event.target.value === '6' ? 6 : 1)}
            >
              <option value={1}>an hour</option>
              <option value={6}>ten minutes</option>
            </select>
          </div>
        </div>
      }
    >
      {desk.state.is === 'done' && (
        <>
          <p className="found">{localised(desk.state.answer.outlook.verdict)}</p>
          <AimsPart outlook={desk.state.answer.outlook} />
          <LifeFigure outlook={desk.state.answer.outlook} />
        </>
      )}
    </WorkPart>
  )
}

/** The report of the outlook on this page. */
export function OutlookTakeAway() {
  const draft = useDraft()
  const { variant } = useRoute()
  const { forecast, from, isCurrent } = useAnswers()
  if (draft === null || forecast === null || from !== 'server' || !isCurrent) return null
  return (
    <section className="part">
      <h2>To take away</h2>
      <TakeAway
        name={`${stemOf(draft.file)}-outlook`}
        asked={{ work: 'forecast', file: draft.file, text: draft.text, variant, seed: SEED }}
        answer={forecast}
      />
    </section>
  )
}
