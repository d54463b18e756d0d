/** The panel by its data sheet, its curve, and where the charger holds it. */
import { useId } from 'react'
import { coldOpenCircuit_V } from '../../supply/panel.ts'
import type { Panel } from '../../supply/supply.ts'
import { Choice, Field, Problem, useProblems } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { Care } from './care.tsx'
import { Margin } from './margin.tsx'
import { fittedPanel } from './panel-curves.ts'
import { type PanelKind, panelEdits } from './panel-edits.ts'
import { PanelFigure } from './panel-figure.tsx'
import { packOf } from './sag-curve.ts'
import { celsius, volts } from './supply-words.ts'
import { type SupplyNow, useSupply } from './use-supply.ts'

const PANEL = ['supply', 'panel'] as const

export function PanelPart() {
  const id = useId()
  const form = useForm()
  const supply = useSupply()
  const problems = useProblems(PANEL)
  const keys = form.entriesAt(PANEL)
  const kind: PanelKind = keys.length === 0 ? 'none' : keys.includes('rated') ? 'rated' : 'sheet'
  const panel = supply?.design.supply.panel ?? null
  return (
    <section className="part" aria-labelledby="panel">
      <h2 id="panel">Panel</h2>
      <div className="side-by-side">
        <div>
          <div className="fields wide-fields">
            <div className="field">
              <label htmlFor={id}>Known by</label>
              <select
                id={id}
                value={kind}
                onChange={(event) =>
                  form.inOneStep(
                    `the panel by ${event.target.selectedOptions[0].text}`,
                    panelEdits(kind, event.target.value as PanelKind, panel),
                  )
                }
              >
                <option value="none">nothing: there is no panel</option>
                <option value="rated">its rating alone</option>
                <option value="sheet">four numbers of its data sheet</option>
              </select>
            </div>
          </div>
          {kind !== 'none' && (
            <div className="fields">
              {kind === 'rated' ? (
                <Field path={[...PANEL, 'rated']} label="Rated" hint="power and voltage, as “1 W at 6 V”" />
              ) : (
                <>
                  <Field path={[...PANEL, 'open circuit']} label="Open circuit" />
                  <Field path={[...PANEL, 'short circuit']} label="Short circuit" />
                  <Field path={[...PANEL, 'maximum power']} label="Maximum power" hint="as “6 V at 165 mA”" />
                </>
              )}
              <Choice
                path={[...PANEL, 'technology']}
                label="Technology"
                options={{
                  '': 'crystalline (unless said)',
                  crystalline: 'crystalline silicon',
                  amorphous: 'amorphous silicon',
                }}
              />
              <Field path={[...PANEL, 'cells']} label="Cells in series" />
              <Field path={[...PANEL, 'rise']} label="Warmer than the air by" hint="at 800 W/m²" />
            </div>
          )}
          {problems.map((problem) => (
            <Problem key={problem.code} {...problem} />
          ))}
          {supply !== null && panel !== null && <OpenInTheCold {...supply} panel={panel} />}
        </div>
        {supply !== null && panel !== null && <PanelFigure {...supply} panel={panel} />}
      </div>
    </section>
  )
}

/** What a charger meets on a clear, cold morning before it draws anything. */
function OpenInTheCold({ design, coldest_C, panel }: SupplyNow & { readonly panel: Panel<number> }) {
  const { charger, pack } = design.supply
  const cold_V = coldOpenCircuit_V(fittedPanel(panel), coldest_C)
  const { cell } = packOf(design)
  const drop_V =
    charger === null || charger.kind === 'maximum-power'
      ? 0
      : charger.kind === 'diode'
        ? charger.drop_V
        : charger.dropOut_V
  const full_V = charger === null ? null : charger.full_V * pack.series
  return (
    <>
      {charger !== null && full_V !== null && charger.kind !== 'maximum-power' && (
        <Margin value={panel.maximumPower_V - full_V - drop_V} format={volts}>
          between the panel's best point ({volts(panel.maximumPower_V)}) and what a full battery with the
          charger's drop needs ({volts(full_V + drop_V)})
        </Margin>
      )}
      <Care
        cell={cell}
        about={['panel']}
        also={[
          `Open, in full sun and at ${celsius(coldest_C)}, this panel gives ${volts(cold_V)}, not the ${volts(panel.openCircuit_V)} of its data sheet: whatever it is joined to must bear that.`,
        ]}
      />
    </>
  )
}
