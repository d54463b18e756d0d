/** Between battery and device: the regulator with its numbers, and the rail's limits. */
import { withEntry } from '../../outpost/file/edit-entry.ts'
import { openCircuit_V } from '../../supply/cell.ts'
import { Field } from '../form/field.tsx'
import { EfficiencyFigure } from './efficiency-figure.tsx'
import { EfficiencyForm } from './efficiency-form.tsx'
import { KindChoice, useKind } from './kind-choice.tsx'
import type { KindRules } from './kind-edits.ts'
import { Margin } from './margin.tsx'
import { leastInput_V, packOf } from './sag-curve.ts'
import { millivolts, volts } from './supply-words.ts'
import { MILD_C, type SupplyNow, useSupply } from './use-supply.ts'

const REGULATOR = ['supply', 'regulator'] as const

const SWITCHING = ['output', 'drop-out', 'minimum', 'quiescent', 'efficiency']
const BASIC = { output: '3.3 V', quiescent: '5 µA' }
const KINDS: Readonly<Record<string, KindRules & { readonly words: string }>> = {
  linear: {
    words: 'linear: what is too much turns to heat',
    allowed: ['output', 'drop-out', 'quiescent'],
    needed: BASIC,
  },
  buck: { words: 'buck: steps down', allowed: SWITCHING, needed: { ...BASIC, efficiency: '85 %' } },
  boost: {
    words: 'boost: steps up',
    allowed: SWITCHING,
    needed: { ...BASIC, minimum: '0.9 V', efficiency: '85 %' },
  },
  'buck-boost': {
    words: 'buck-boost: steps up and down',
    allowed: SWITCHING,
    needed: { ...BASIC, minimum: '1.8 V', efficiency: '85 %' },
  },
}

export function RegulatorPart() {
  const supply = useSupply()
  const kind = useKind('regulator')
  return (
    <section className="part" aria-labelledby="regulator">
      <h2 id="regulator">Regulator</h2>
      <div className="side-by-side">
        <div>
          <div className="fields wide-fields">
            <KindChoice
              part="regulator"
              label="Between battery and device"
              kinds={KINDS}
              none="nothing: the rail is the battery"
              toNone={(document) => withEntry(document, ['supply'], 'regulator', 'none')}
            />
          </div>
          {kind !== null && (
            <div className="fields">
              <Field path={[...REGULATOR, 'output']} label="Output" />
              <Field
                path={[...REGULATOR, 'drop-out']}
                label="Drop-out"
                hint="how far the input must stay above the output"
              />
              {kind !== 'linear' && <Field path={[...REGULATOR, 'minimum']} label="Lowest input" />}
              <Field path={[...REGULATOR, 'quiescent']} label="Takes for itself" />
            </div>
          )}
          {kind !== null && kind !== 'linear' && <EfficiencyForm />}
          <h3>The rail</h3>
          <div className="fields">
            <Field
              path={['supply', 'brownout']}
              label="The device stops below"
              hint="at its rail: brown-out"
            />
            <Field
              path={['supply', 'restart above']}
              label="Starts again above"
              hint="at the battery, once it has recovered"
            />
          </div>
          {supply !== null && <Headroom {...supply} />}
        </div>
        {supply !== null && supply.design.supply.regulator.kind !== 'none' ? (
          <EfficiencyFigure {...supply} regulator={supply.design.supply.regulator} />
        ) : (
          <p className="hint">
            Without a regulator the device takes from the battery just what it draws, and bears its voltage
            from full to empty: see that its data sheet allows both.
          </p>
        )}
      </div>
    </section>
  )
}

/** From half-full, at rest, to the least input from which the rail holds. */
function Headroom({ design }: SupplyNow) {
  const least_V = leastInput_V(design)
  if (least_V === null)
    return (
      <p className="margin is-short">
        The regulator's output lies below the brown-out: the device never runs.
      </p>
    )
  const half_V = openCircuit_V(packOf(design).cell, 0.5, MILD_C)
  return (
    <Margin value={half_V - least_V} format={millivolts}>
      between a half-full battery at rest ({volts(half_V)}) and the least from which the rail holds (
      {volts(least_V)})
    </Margin>
  )
}
