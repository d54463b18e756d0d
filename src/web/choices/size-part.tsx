/** How small a cell, how small a panel, how short an interval; the frontier of all three; the cheapest of one's parts. */
import { useState } from 'react'
import type { SizingReport } from '../../report/sizing.ts'
import {
  costOf,
  offGridInWords,
  onPaperInWords,
  sizingVerdict,
  survivalInWords,
} from '../../report/sizing-words.ts'
import { useFolder } from '../draft/folder.ts'
import { localised } from '../look/shown.ts'
import { useWork } from '../server/work.ts'
import { FrontierMap } from './frontier-map.tsx'
import { quantityFrom } from './quantity-from.ts'
import { WorkPart } from './work-part.tsx'

export function SizePart() {
  const desk = useWork<'size'>()
  const folder = useFolder()
  const [wanted, setWanted] = useState('')
  const [parts, setParts] = useState('')
  const [objective, setObjective] = useState('price')
  const lists = folder.is === 'there' ? folder.folder.partsLists : []
  const share = wanted.trim() === '' ? null : quantityFrom(wanted, 'ratio')
  const isWrong = wanted.trim() !== '' && (share === null || share < 0.5 || share > 0.995)
  return (
    <WorkPart
      title="Size"
      lead="The smallest cell, the smallest panel and the shortest interval that survive, each with all else as it is; then all of them together."
      desk={desk}
      press="Size it"
      asks={(outpost) => ({
        work: 'size',
        ...outpost,
        wanted: isWrong ? null : share,
        partsFile: parts === '' ? null : parts,
        objective,
      })}
      before={
        <div className="fields">
          <div className={`field ${isWrong ? 'has-error' : ''}`}>
            <label htmlFor="wanted">Share to survive</label>
            <input
              id="wanted"
              type="text"
              value={wanted}
              placeholder="the aim of the file"
              aria-invalid={isWrong}
              onChange={(event) => setWanted(event.target.value)}
            />
            {isWrong && <p className="problem error">A share from 50 % to 99.5 % is wanted, such as 95 %.</p>}
          </div>
          {lists.length > 0 && (
            <div className="field">
              <label htmlFor="parts">Choose among the parts of</label>
              <select id="parts" value={parts} onChange={(event) => setParts(event.target.value)}>
                <option value="">no list</option>
                {lists.map((file) => (
                  <option key={file}>{file}</option>
                ))}
              </select>
            </div>
          )}
          {parts !== '' && (
            <div className="field">
              <label htmlFor="objective">with the least (a column of it)</label>
              <input
                id="objective"
                type="text"
                value={objective}
                onChange={(event) => setObjective(event.target.value)}
              />
            </div>
          )}
        </div>
      }
    >
      {desk.state.is === 'done' && <Found report={desk.state.answer} />}
    </WorkPart>
  )
}

function Found({ report }: { readonly report: SizingReport }) {
  const { study, parts } = report
  const answers = [
    ['As it is', study.asItIs.design],
    ['Smallest cell', study.smallestCell],
    ['Smallest panel', study.smallestPanel],
    ['Shortest interval', study.shortestInterval],
  ] as const
  return (
    <>
      <p className="found">{localised(sizingVerdict(report))}</p>
      <dl className="answers">
        {answers.map(([name, sized]) =>
          sized === null ? null : (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{localised(`${survivalInWords(sized, report)}; ${offGridInWords(sized)}.`)}</dd>
            </div>
          ),
        )}
      </dl>
      <FrontierMap report={report} />
      {study.onPaper !== null && <p>{localised(onPaperInWords(report))}</p>}
      {parts !== null && parts.cheapest !== null && (
        <>
          <h3>Of your parts</h3>
          <p>
            Least {parts.objective}: {parts.cheapest.cell}
            {parts.cheapest.panel !== null && ` with ${parts.cheapest.panel}`},{' '}
            {localised(costOf(parts.cheapest.cost, parts.dimension))}. Cheaper ones that were played:{' '}
            {parts.cheaper.length === 0 ? 'none' : ''}
          </p>
          <ul>
            {parts.cheaper.map(({ cell, panel, cost, design }) => (
              <li key={`${cell} ${panel}`}>
                {cell}
                {panel !== null && ` with ${panel}`}, {localised(costOf(cost, parts.dimension))}:{' '}
                {localised(survivalInWords(design, report))}
              </li>
            ))}
            {parts.unsuited.map(({ cell, why }) => (
              <li key={cell}>
                {cell}: left out, {why}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}
