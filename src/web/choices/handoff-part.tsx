/** What the firmware needs: tables and alarms in C, and what to shut down before each rest. */
import { useId, useState } from 'react'
import { saveAs } from '../figure/save.ts'
import { AskedField } from '../form/asked-field.tsx'
import { useWork } from '../server/work.ts'
import { WorkPart } from '../work/work-part.tsx'

const C_NAME = /^[a-z][a-z0-9_]{0,30}$/i

export function HandoffPart() {
  const desk = useWork<'handoff'>()
  const id = useId()
  const [prefix, setPrefix] = useState('outpost')
  const [bcd, setBcd] = useState(false)
  const [clock, setClock] = useState<'local' | 'utc'>('local')
  const isWrong = !C_NAME.test(prefix)
  return (
    <WorkPart
      title="Hand over"
      lead="Intervals by millivolts with hysteresis, the next wake alarm, a low-battery latch and the budget, as C11 without dependencies; and a checklist of what to shut down before each rest."
      desk={desk}
      press="Write the files"
      name="handoff"
      plays={{}}
      isWrong={isWrong}
      asks={(outpost) => ({ work: 'handoff', ...outpost, prefix, bcd, clock })}
      before={
        <div className="fields">
          <AskedField
            label="Names begin with"
            text={prefix}
            onText={setPrefix}
            problem={isWrong ? 'A name as C has them is wanted: letters, digits and _.' : null}
          />
          <div className="field">
            <label htmlFor={`${id}-clock`}>The clock keeps</label>
            <select
              id={`${id}-clock`}
              value={clock}
              onChange={(event) => setClock(event.target.value as 'local' | 'utc')}
            >
              <option value="local">local time</option>
              <option value="utc">UTC</option>
            </select>
          </div>
          <div className="field">
            <label htmlFor={`${id}-bcd`}>Times in its registers</label>
            <select
              id={`${id}-bcd`}
              value={String(bcd)}
              onChange={(event) => setBcd(event.target.value === 'true')}
            >
              <option value="false">as numbers</option>
              <option value="true">as two decimal digits in a byte (BCD)</option>
            </select>
          </div>
        </div>
      }
    >
      {desk.state.is === 'done' &&
        Object.entries(desk.state.answer.files).map(([name, text]) => (
          <details key={name} className="handed">
            <summary>{name}</summary>
            <button type="button" className="quiet" onClick={() => saveAs(name, text, 'text/plain')}>
              Save {name}
            </button>
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
            <pre tabIndex={0}>{text}</pre>
          </details>
        ))}
    </WorkPart>
  )
}
