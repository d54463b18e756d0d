/** The Start page: one sentence with blanks, at once how long it lasts, and one press that makes it an outpost file. */
import { useId, useState } from 'react'
import { lookAtFolder, useFolder } from '../draft/folder.ts'
import { turnPage } from '../frame/turn-page.ts'
import { localised, quantityShown } from '../look/shown.ts'
import { useRoute } from '../route.ts'
import { save } from '../server/ask.ts'
import { BlankField } from '../start/blank-field.tsx'
import { answersOf, type Blank, blanksOf, fileNameFor, setBlank } from '../start/blanks.ts'
import { LivesPart } from '../start/lives-part.tsx'
import { OutpostsPart } from '../start/outposts-part.tsx'
import { useSentence } from '../start/sentence.ts'
import '../start/start.css'

const CELLS = [
  'LR03',
  'LR6',
  '2 x LR6',
  'LR14',
  'LR20',
  'FR6',
  'HR6',
  'CR2032',
  'CR17345',
  'ER14505',
  'Li-ion 2000 mAh',
  'LiFePO4 1500 mAh',
]
const PANELS = ['0.5 W at 5.5 V', '1 W at 6 V', '2 W at 6 V', '5 W at 18 V']

export function StartPage() {
  const route = useRoute()
  const folder = useFolder()
  const blanks = blanksOf(route)
  const answer = useSentence(answersOf(blanks))
  const places = folder.is === 'there' ? folder.folder.places : []
  const field = (
    blank: Blank,
    label: string,
    more: { placeholder?: string; offers?: readonly string[] } = {},
  ) => (
    <BlankField
      label={label}
      text={blanks[blank]}
      onText={(text) => setBlank(route, blank, text)}
      problem={answer.problems.find((problem) => problem.answer === blank)}
      {...more}
    />
  )
  return (
    <>
      <section className="part" aria-label="One sentence with blanks">
        <p className="sentence">
          A cell of {field('cell', 'Cell', { offers: CELLS })} feeds a device that wakes every{' '}
          {field('interval', 'Wakes every')}, draws {field('awakeCurrent', 'Draws awake')} for{' '}
          {field('awakeFor', 'A wake lasts')}, and rests at {field('restCurrent', 'Draws at rest')}. It stands
          in a place like {field('place', 'Place', { offers: places })}, with{' '}
          {field('panel', 'Panel', { placeholder: 'no panel', offers: PANELS })}.
        </p>
        <div id="blank-problems" aria-live="polite">
          {answer.problems.map(({ answer: blank, code, message, expected, cure }) => (
            <p className="problem error" key={`${blank} ${code}`}>
              {message}. <span className="wanted">Expected: {expected}.</span> {cure}.
            </p>
          ))}
        </div>
        {answer.broken !== null && <p className="problem error">The reckoning broke: {answer.broken}.</p>}
        {answer.forecast !== null && (
          <>
            <p
              className={`lasts ${answer.isCurrent ? '' : 'is-stale'}`}
              aria-live="polite"
              data-current={answer.isCurrent}
              data-whole={answer.isWhole}
            >
              {localised(answer.forecast.outlook.verdict)}
            </p>
            <p className="hint">
              One wake takes {quantityShown(answer.forecast.wake.charge_C, 'charge', { digits: 3 })};{' '}
              {Number(answer.forecast.wakesPerDay.toPrecision(3))} wakes a day.
            </p>
          </>
        )}
        <MakeIt text={answer.text} title={blanks.title} onTitle={(text) => setBlank(route, 'title', text)} />
      </section>
      {answer.forecast !== null && <LivesPart outlook={answer.forecast.outlook} />}
      <OutpostsPart />
    </>
  )
}

interface MakeItProps {
  readonly text: string | null
  readonly title: string
  readonly onTitle: (title: string) => void
}

function MakeIt({ text, title, onTitle }: MakeItProps) {
  const id = useId()
  const folder = useFolder()
  const [why, setWhy] = useState<string | null>(null)
  const taken = folder.is === 'there' ? folder.folder.outposts.map(({ file }) => file) : []
  const file = fileNameFor(title, taken)
  const make = async () => {
    if (text === null) return
    try {
      const answer = await save({ file, text, before: null })
      if ('version' in answer) {
        await lookAtFolder()
        turnPage({ page: 'wake', file, variant: null, more: {} })
      } else {
        await lookAtFolder()
        setWhy(`${file} is there already. It is left as it is; press again for a free name.`)
      }
    } catch (error) {
      setWhy((error as Error).message)
    }
  }
  return (
    <form
      className="make-it"
      onSubmit={(event) => {
        event.preventDefault()
        void make()
      }}
    >
      <label htmlFor={id}>Call it</label>
      <input
        id={id}
        type="text"
        value={title}
        placeholder="Gauge by the ford"
        autoComplete="off"
        onChange={(event) => onTitle(event.target.value)}
      />
      <button type="submit" disabled={text === null}>
        Make it an outpost
      </button>
      <span className="hint">
        writes <code>{file}</code>
      </span>
      {why !== null && <p className="problem error">{why}</p>}
    </form>
  )
}
