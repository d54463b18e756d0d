/** Aims, causes and reports: the questions a person has, answered in words. */
import type { Outlook } from '../../outlook/outlook.ts'
import { counted } from '../../quantity/counted.ts'
import type { Replay } from '../../report/forecast.ts'
import { dayShown, localised, numberShown, quantityShown, shareShown } from '../look/shown.ts'

const ANSWERS = { yes: 'Yes.', no: 'No.', 'cannot tell': 'Cannot tell in so many runs.' } as const

export function AimsPart({ outlook }: { readonly outlook: Outlook }) {
  if (outlook.aims.length === 0)
    return (
      <section className="part">
        <h2>What must hold</h2>
        <p>
          The file states no aims. With a section such as <code>aims: {'{ winters: 95 % }'}</code> in the
          text, each is answered here.
        </p>
      </section>
    )
  return (
    <section className="part">
      <h2>What must hold</h2>
      <dl className="answers">
        {outlook.aims.map(({ aim, holds, why }) => (
          <div key={aim} className={holds === 'no' ? 'is-no' : undefined}>
            <dt>{localised(aim)}</dt>
            <dd>
              <strong>{ANSWERS[holds]}</strong> {localised(why)}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

export function FactsPart({
  outlook,
  replay,
}: {
  readonly outlook: Outlook
  readonly replay: Replay | null
}) {
  const { causes, reportsPerDay, downHoursPerYear, margin_V, runs, years, seed } = outlook
  return (
    <section className="part">
      <h2>What else was counted</h2>
      <dl className="answers">
        <div>
          <dt>What kills it</dt>
          <dd>
            {causes.length === 0
              ? `Nothing, in ${counted(runs, 'run', numberShown)} of ${counted(years, 'year', numberShown)}.`
              : `${causes.map(({ cause, share }) => `${cause} in ${shareShown(share)} of first deaths`).join('; ')}.`}
          </dd>
        </div>
        <div>
          <dt>Reports</dt>
          <dd>
            {numberShown(reportsPerDay.mean)} a day on average
            {reportsPerDay.p5 !== null && `, ${numberShown(reportsPerDay.p5)} in the poorest run of twenty`};{' '}
            {numberShown(reportsPerDay.missed, 2)} a day are missed while it is down.
          </dd>
        </div>
        <div>
          <dt>Hours down</dt>
          <dd>{numberShown(downHoursPerYear, 2)} a year on average.</dd>
        </div>
        {margin_V !== null && (
          <div>
            <dt>Smallest voltage in hand</dt>
            <dd>
              {quantityShown(margin_V.median, 'voltage', { digits: 2 })} over the brown-out in the middle run,{' '}
              {quantityShown(margin_V.p5, 'voltage', { digits: 2 })} in the poorest of twenty.
            </dd>
          </div>
        )}
        {replay !== null && (
          <div>
            <dt>The file's own days</dt>
            <dd>
              {replay.title}, played once in its order: {replay.alive ? 'alive throughout' : 'it dies'}, with{' '}
              {numberShown(replay.downHours)} hours down; least charge {shareShown(replay.lowestState)} about{' '}
              {dayShown(replay.lowestDay)}.
            </dd>
          </div>
        )}
        <div>
          <dt>Random streams</dt>
          <dd>Seed {seed}: the same file gives the same answer again, on any machine.</dd>
        </div>
      </dl>
    </section>
  )
}
