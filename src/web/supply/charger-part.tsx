/** From panel to battery: the charger, and when it may charge at all. */
import { withoutEntry } from '../../outpost/file/edit-entry.ts'
import { parseUncertain } from '../../quantity/parse-uncertain.ts'
import { best } from '../../quantity/spread.ts'
import { coldOpenCircuit_V } from '../../supply/panel.ts'
import { Field } from '../form/field.tsx'
import { useForm } from '../form/form.ts'
import { Care } from './care.tsx'
import { KindChoice, useKind } from './kind-choice.tsx'
import type { KindRules } from './kind-edits.ts'
import { Margin } from './margin.tsx'
import { fittedPanel } from './panel-curves.ts'
import { celsius, volts } from './supply-words.ts'
import { type SupplyNow, useSupply } from './use-supply.ts'
import { WindowFigure } from './window-figure.tsx'

const CHARGER = ['supply', 'charger'] as const

const COMMON = ['quiescent', 'full', 'cold lock-out']
const KINDS: Readonly<Record<string, KindRules & { readonly words: string }>> = {
  diode: { words: 'a diode, and a shunt at full', allowed: ['drop', ...COMMON], needed: {} },
  linear: {
    words: 'linear: the panel is held at the battery and the drop-out',
    allowed: ['drop-out', 'limit', 'highest input', ...COMMON],
    needed: {},
  },
  'maximum-power': {
    words: 'maximum power: the panel is held at its best point',
    allowed: ['efficiency', 'limit', 'highest input', ...COMMON],
    needed: {},
  },
}

export function ChargerPart() {
  const supply = useSupply()
  const kind = useKind('charger')
  const charging = supply?.design.supply.pack.cell.charging ?? null
  const isPrimary = supply !== null && charging === null
  return (
    <section className="part" aria-labelledby="charger">
      <h2 id="charger">Charger</h2>
      <div className="side-by-side">
        <div>
          <div className="fields wide-fields">
            <KindChoice
              part="charger"
              label="From panel to battery"
              kinds={KINDS}
              none="none: nothing is put back"
              toNone={(document) => withoutEntry(document, CHARGER)}
            />
          </div>
          {kind !== null && (
            <div className="fields">
              {kind === 'diode' && <Field path={[...CHARGER, 'drop']} label="Forward drop" />}
              {kind === 'linear' && <Field path={[...CHARGER, 'drop-out']} label="Drop-out" />}
              {kind === 'maximum-power' && <Field path={[...CHARGER, 'efficiency']} label="Efficiency" />}
              {kind !== 'diode' && <Field path={[...CHARGER, 'limit']} label="Current limit" />}
              <Field path={[...CHARGER, 'quiescent']} label="Takes in the dark" />
              <Field path={[...CHARGER, 'full']} label="Holds when full" hint="the whole pack's voltage" />
              <Field
                path={[...CHARGER, 'cold lock-out']}
                label="Locked out below"
                hint="“none” where nothing prevents it"
              />
              {kind !== 'diode' && (
                <Field
                  path={[...CHARGER, 'highest input']}
                  label="Bears at its input"
                  placeholder="not said"
                />
              )}
            </div>
          )}
          {supply !== null && <HighestInput {...supply} />}
          {isPrimary && <p>These cells are primary: they are used up once, and never charged.</p>}
          {supply !== null && <Care cell={supply.design.supply.pack.cell} about={['charging']} />}
        </div>
        {supply !== null && charging !== null && <WindowFigure {...supply} window={charging} />}
      </div>
    </section>
  )
}

/** Of the input, against the open panel on the coldest clear morning. */
function HighestInput({ design, coldest_C }: SupplyNow) {
  const form = useForm()
  const stated = form.valueAt([...CHARGER, 'highest input'])
  const read = stated.kind === 'text' ? parseUncertain(stated.text, 'voltage') : null
  const { panel } = design.supply
  if (!read?.ok || panel === null) return null
  const open_V = coldOpenCircuit_V(fittedPanel(panel), coldest_C)
  return (
    <Margin value={best(read.value) - open_V} format={volts}>
      between what its input bears and the open panel at {celsius(coldest_C)} ({volts(open_V)})
    </Margin>
  )
}
