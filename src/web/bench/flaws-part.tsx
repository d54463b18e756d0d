/** What is wrong with the recording itself, each place a link into the trace. */
import type { Imported } from '../../api/bench.ts'
import type { FlawKind } from '../../recording/recording.ts'
import { flawInWords, placeInTime } from '../../report/recording-words.ts'
import { PageLink } from '../frame/page-link.tsx'
import { localised } from '../look/shown.ts'
import { type BenchAddress, moreOf } from './address.ts'
import { fitted, type Limits } from './trace/window.ts'

export interface FlawsPartProps {
  readonly imported: Imported
  readonly bench: BenchAddress
  readonly limits: Limits
}

const SHOWN = 12
/** What lies around a flaw is shown as well: at least so many usual steps. */
const AROUND = 200

export function FlawsPart({ imported, bench, limits }: FlawsPartProps) {
  if (imported.flawTotals.length === 0) return null
  return (
    <section className="part" aria-labelledby="flaws-title">
      <h2 id="flaws-title">What is wrong with it</h2>
      <p>None of it is bridged, and no charge is made up for it.</p>
      <ul className="lines">
        {imported.flawTotals.map((total) => (
          <li key={total.kind}>
            {localised(flawInWords(total))}. <Places kind={total.kind} {...{ imported, bench, limits }} />
          </li>
        ))}
      </ul>
    </section>
  )
}

function Places({ kind, imported, bench, limits }: FlawsPartProps & { readonly kind: FlawKind }) {
  const these = imported.flaws.filter((flaw) => flaw.kind === kind)
  return (
    <span className="places">
      {these.slice(0, SHOWN).map(({ at_s, duration_s, line, text }) => {
        const words = `${line === null ? '' : `line ${line}${text === null ? '' : ` (“${text}”)`}${at_s === null ? '' : ', '}`}${at_s === null ? '' : localised(placeInTime(at_s) || '0 s')}`
        if (at_s === null) return <span key={`${line}`}>{words}</span>
        const room_s = Math.max(duration_s, AROUND * imported.interval_s)
        const window = fitted({ from_s: at_s - room_s, to_s: at_s + duration_s + room_s }, limits)
        return (
          <PageLink key={`${at_s} ${line}`} to={{ more: moreOf({ ...bench, window }) }}>
            {words}
          </PageLink>
        )
      })}
      {these.length > SHOWN && <span>and more</span>}
    </span>
  )
}
