/** What flows between wakes, what flows always, and what comes through a rest. */
import { Choice, Field } from '../form/field.tsx'
import { type Column, TypedTable } from '../form/typed-table.tsx'
import { useDesign } from '../verdict/design.ts'

const DRAINS: readonly Column[] = [
  { key: 'name', head: 'what draws it', width: 3 },
  { key: 'draws', head: 'draws', width: 2 },
  {
    key: 'from',
    head: 'taken',
    width: 2,
    options: {
      '': 'behind the regulator (unless said)',
      rail: 'behind the regulator',
      cell: 'straight from the cell',
    },
  },
]

const KEPT: readonly Column[] = [
  { key: 'name', head: 'what is kept', width: 4 },
  { key: 'size', head: 'size', width: 2 },
  {
    key: 'memory',
    head: 'memory',
    width: 3,
    options: {
      ram: 'RAM',
      'clock-ram': 'RAM of the clock',
      flash: 'flash',
      eeprom: 'EEPROM',
      fram: 'FRAM',
    },
  },
  { key: 'endurance', head: 'erase cycles', width: 2, placeholder: 'usual' },
  { key: 'page', head: 'page', width: 2, placeholder: 'usual' },
  { key: 'pages', head: 'pages', width: 1.5, placeholder: '1' },
]

export function BetweenPart() {
  return (
    <section className="part" aria-labelledby="between">
      <h2 id="between">Between wakes</h2>
      <div className="fields">
        <Field path={['rest']} label="At rest it draws" hint="standing drains not included" />
      </div>
      <h3>Standing drains: what is drawn always, awake or not</h3>
      <TypedTable
        path={['standing']}
        label="Standing drains"
        what="drain"
        columns={DRAINS}
        blank={{ name: 'pull-up', draws: '1 µA' }}
      />
    </section>
  )
}

export function ResumePart() {
  const resume = useDesign()?.best.wake.resume ?? 'continue'
  return (
    <section className="part" aria-labelledby="resume">
      <h2 id="resume">After a rest</h2>
      <div className="fields wide-fields">
        <Choice
          path={['resume']}
          label="After a rest it"
          options={{
            '': 'continues (unless said)',
            continue: 'continues, its memory kept',
            restart: 'restarts: boots anew in each wake',
          }}
        />
      </div>
      <h3>What must outlive a rest: written once in each wake</h3>
      <TypedTable
        path={['keeps']}
        label="What is kept over a rest"
        what="thing kept"
        columns={KEPT}
        blank={{ name: 'counter', size: '8 B', memory: resume === 'restart' ? 'clock-ram' : 'ram' }}
      />
    </section>
  )
}
