/** The Place page: where it stands, the sun over its skyline, and the light and air that the year brings. */
import { best } from '../../quantity/spread.ts'
import { Waiting } from '../frame/waiting.tsx'
import { localised } from '../look/shown.ts'
import { MonthsFigure } from '../place/months-figure.tsx'
import '../place/place.css'
import { PlaceForm } from '../place/place-form.tsx'
import { SunFigure } from '../place/sun-figure.tsx'
import { useAnswers } from '../verdict/answers.ts'

export default function PlacePage() {
  const { outpost, forecast } = useAnswers()
  const hasPanel = outpost !== null && outpost.supply.panel !== null
  return (
    <>
      <PlaceForm hasPanel={hasPanel} />
      {outpost === null ? (
        <Waiting what="the sky" />
      ) : (
        <>
          <SunFigure
            place={outpost.place}
            panelAzimuth_deg={hasPanel ? best(outpost.place.azimuth_deg) : null}
          />
          {forecast !== null && (
            <>
              <MonthsFigure outlook={forecast.outlook} place={outpost.place} hasPanel={hasPanel} />
              <p>The weather that is played is {localised(forecast.weather)}.</p>
            </>
          )}
        </>
      )}
    </>
  )
}
