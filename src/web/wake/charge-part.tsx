/** Where a day's charge goes, and what that is of the cell. */
import { inUnit } from '../../quantity/format.ts'
import { dayUnit } from '../../report/day-unit.ts'
import type { Forecast } from '../../report/forecast.ts'
import { localised, numberShown, quantityShown } from '../look/shown.ts'
import { useAnswers } from '../verdict/answers.ts'
import { ChargeFigure } from './charge-figure.tsx'

export function ChargePart() {
  const { forecast } = useAnswers()
  if (forecast === null)
    return <p className="waiting">Where a day's charge goes is shown once the file can be read.</p>
  return (
    <div className="charge-part">
      <ChargeFigure budget={forecast.outlook.budget} />
      <Facts forecast={forecast} />
    </div>
  )
}

function Facts({ forecast }: { readonly forecast: Forecast }) {
  const { outlook, wake, wakesPerDay, capacity_C } = forecast
  const perDay_C = outlook.budget.reduce((sum, part) => sum + part.charge_C, 0)
  const days = capacity_C / perDay_C
  return (
    <dl className="facts">
      <div>
        <dt>A wake takes</dt>
        <dd>
          {quantityShown(wake.charge_C, 'charge', { digits: 3 })}{' '}
          <span className="hint">at the rail, on average{differsWords(wake)}</span>
        </dd>
      </div>
      <div>
        <dt>Wakes a day</dt>
        <dd>{numberShown(wakesPerDay)}</dd>
      </div>
      <div>
        <dt>A day takes</dt>
        <dd>
          {localised(inUnit(perDay_C, dayUnit(perDay_C), 3))} <span className="hint">from the cell</span>
        </dd>
      </div>
      <div>
        <dt>The cell holds</dt>
        <dd>
          {quantityShown(capacity_C, 'charge', { digits: 3 })} <span className="hint">when new</span>
        </dd>
      </div>
      <div>
        <dt>Days in it</dt>
        <dd>
          {numberShown(days)}{' '}
          <span className="hint">if nothing were put back and all of it could be taken out</span>
        </dd>
      </div>
    </dl>
  )
}

function differsWords({ charge_C, deviation_C }: Forecast['wake']): string {
  if (deviation_C < 0.005 * charge_C) return ''
  return `; from wake to wake it differs by ${quantityShown(deviation_C, 'charge', { digits: 2 })} (standard deviation)`
}
