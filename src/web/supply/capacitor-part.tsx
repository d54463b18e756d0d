/** The capacitor across the battery: what it takes off the sag of a burst, and what it leaks for that. */
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
import { Field } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { quantityShown } from '../look/shown.ts'
import { BurstFigure } from './burst-figure.tsx'
import { Margin } from './margin.tsx'
import { packOf } from './sag-curve.ts'
import { amperes, volts } from './supply-words.ts'
import { type SupplyNow, useSupply } from './use-supply.ts'

const CAPACITOR = ['supply', 'capacitor'] as const
const USUAL = { capacitance: '470 µF ± 20 %', ESR: '0.1 Ω', leakage: '1..5 µA' }
const DAY_s = 86_400

export function CapacitorPart() {
  const form = useForm()
  const supply = useSupply()
  const isThere = form.valueAt(CAPACITOR).kind === 'map'
  return (
    <section className="part" aria-labelledby="capacitor">
      <h2 id="capacitor">Capacitor</h2>
      {isThere ? (
        <div className="side-by-side">
          <div>
            <div className="fields">
              <Field path={[...CAPACITOR, 'capacitance']} label="Capacitance" />
              <Field path={[...CAPACITOR, 'ESR']} label="Equivalent series resistance" />
              <Field path={[...CAPACITOR, 'leakage']} label="Leaks" />
              <Field path={[...CAPACITOR, 'rating']} label="Bears at most" placeholder="not said" />
            </div>
            {supply !== null && <Cost {...supply} />}
            {supply !== null && <Rating {...supply} />}
            <button type="button" className="quiet" onClick={() => form.remove(CAPACITOR, 'the capacitor')}>
              Take the capacitor away
            </button>
          </div>
          {supply !== null && supply.design.supply.capacitor !== null && <BurstFigure {...supply} />}
        </div>
      ) : (
        <>
          <p>
            None: the battery carries every burst by itself. Across a battery with much resistance, cold,
            small or old, a capacitor carries the short ones.
          </p>
          <button type="button" onClick={() => form.addEntry(['supply'], 'capacitor', USUAL)}>
            Add a capacitor
          </button>
        </>
      )}
    </section>
  )
}

function Cost({ design }: SupplyNow) {
  const { capacitor } = design.supply
  if (capacitor === null) return null
  return (
    <p>
      Its leakage of {amperes(capacitor.leakage_A)} takes{' '}
      {quantityShown(capacitor.leakage_A * DAY_s, 'charge', { digits: 2 })} of every day.
    </p>
  )
}

/** Against the highest voltage the battery has: full at rest, or at the end of its charge. */
function Rating({ design }: SupplyNow) {
  const form = useForm()
  const rating = form.valueAt([...CAPACITOR, 'rating'])
  const read = rating.kind === 'text' ? parseUncertain(rating.text, 'voltage') : null
  if (!read?.ok) return null
  const { cell } = packOf(design)
  const highest_V = Math.max(...cell.openCircuit_V.y, cell.charging?.full_V ?? 0)
  return (
    <Margin value={best(read.value) - highest_V} format={volts}>
      between what it bears and a full battery of {volts(highest_V)}
    </Margin>
  )
}
