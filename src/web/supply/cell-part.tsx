/** The cell: what it is, and what it gives as it empties, under a burst, at a rate, in the cold. */
import { valueAt } from '../../numeric/curve.ts'
import { cellNames, chemistriesByCapacity, findCell } from '../../supply/cell-catalogue.ts'
import { Field, Problem, useProblems } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { numberShown, shareShown } from '../look/shown.ts'
import { Care } from './care.tsx'
import { DeliveredFigure } from './delivered-figure.tsx'
import { SagFigure } from './sag-figure.tsx'
import { celsius } from './supply-words.ts'
import { type SupplyNow, useSupply } from './use-supply.ts'

const CELL = ['supply', 'cell'] as const

export function CellPart() {
  const supply = useSupply()
  const problems = useProblems(CELL)
  return (
    <section className="part" aria-labelledby="cell">
      <h2 id="cell">Cell</h2>
      <div className="side-by-side">
        <div>
          <CellForm />
          {problems.map((problem) => (
            <Problem key={problem.code} {...problem} />
          ))}
          {supply !== null && <PriceOfCold {...supply} />}
          {supply !== null && <Care cell={supply.design.supply.pack.cell} about={['cell', 'box']} />}
        </div>
        {supply !== null && <SagFigure {...supply} />}
      </div>
      {supply !== null && <DeliveredFigure {...supply} />}
    </section>
  )
}

function CellForm() {
  const form = useForm()
  const type = form.valueAt([...CELL, 'type'])
  const known = type.kind === 'text' ? findCell(type.text) : null
  const capacitance = form.valueAt([...CELL, 'capacitance'])
  const isCapacitor = known?.chemistry === 'supercapacitor' || capacitance.kind !== 'absent'
  const isAnySize = known !== null && chemistriesByCapacity.includes(known.chemistry)
  return (
    <div className="fields">
      <Field
        path={[...CELL, 'type']}
        label="Type"
        offers={cellNames}
        hint="its IEC designation, or a chemistry that comes in any size"
      />
      {isCapacitor ? (
        <Field path={[...CELL, 'capacitance']} label="Capacitance" hint="of one, when new" />
      ) : (
        <Field
          path={[...CELL, 'capacity']}
          label="Capacity"
          hint={isAnySize ? 'of one, when new' : 'of one, when new; left out, that of its size'}
        />
      )}
      <Field path={[...CELL, 'series']} label="In series" placeholder="1" />
      <Field path={[...CELL, 'parallel']} label="In parallel" placeholder="1" />
      <Field path={[...CELL, 'charged']} label="Charged, when put out" />
      <Field path={[...CELL, 'age']} label="Age, when put out" />
    </div>
  )
}

function PriceOfCold({ design, coldest_C }: SupplyNow) {
  const { cell } = design.supply.pack
  const share = valueAt(cell.capacityFactor, coldest_C)
  const factor = valueAt(cell.resistanceFactor, coldest_C)
  if (share >= 0.995 && factor <= 1.05)
    return <p>It does not get cold enough there to matter: {celsius(coldest_C)} at the least.</p>
  return (
    <p>
      The price of cold: at {celsius(coldest_C)}, the night of a cold day in the coldest month, it gives{' '}
      {shareShown(share)} of its charge for as long as it stays so cold, and its resistance is{' '}
      {numberShown(factor, 2)} times that at 20 °C.
    </p>
  )
}
