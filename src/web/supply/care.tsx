/** What can hurt, beside what it is about. */
import { type CautionSubject, cautionsBySubject } from '../../supply/cautions.ts'
import type { Cell } from '../../supply/supply.ts'

export interface CareProps {
  readonly cell: Cell
  readonly about: readonly CautionSubject[]
  /** Cautions with numbers of this design. */
  readonly also?: readonly string[]
}

export function Care({ cell, about, also = [] }: CareProps) {
  const known = cautionsBySubject(cell.chemistry, cell.name)
  const texts = [...also, ...known.filter((each) => about.includes(each.about)).map(({ text }) => text)]
  if (texts.length === 0) return null
  const deferring = known.find((each) => each.about === 'everything')
  return (
    <div className="care" role="note" aria-label="Take care">
      <ul>
        {texts.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      {deferring !== undefined && <p>{deferring.text}</p>}
    </div>
  )
}
