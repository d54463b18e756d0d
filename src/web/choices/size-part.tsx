/** How small a cell, how small a panel, how short an interval; the frontier of all three; the cheapest of one's parts. */
import { useState } from 'react'
import type { OfOutpost } from '../../api/work.ts'
import { CELLS, INTERVALS, PANELS } from '../../quantity/parse-quantities.ts'
import type { SizingReport } from '../../report/sizing.ts'
import {
  costOf,
  offGridInWords,
  onPaperInWords,
  sizingVerdict,
  survivalInWords,
} from '../../report/sizing-words.ts'
import { useFolder } from '../draft/folder.ts'
import { useAsked } from '../form/asked-field.tsx'
import { localised } from '../look/shown.ts'
import { useWork } from '../server/work.ts'
import { useAnswers } from '../verdict/answers.ts'
import { quantitiesFrom, quantityFrom, SHARE_TO_SURVIVE } from '../work/quantity-from.ts'
import { WorkPart } from '../work/work-part.tsx'
import { FrontierMap } from './frontier-map.tsx'

export function SizePart() {
  const desk = useWork<'size'>()
  const folder = useFolder()
  const { outpost } = useAnswers()
  const [texts, field] = useAsked({ wanted: '', cells: '', panels: '', intervals: '', objective: 'price' })
  const [parts, setParts] = useState('')
  const lists = folder.is === 'there' ? folder.folder.partsLists : []
  const wanted = quantityFrom(texts.wanted, 'ratio', SHARE_TO_SURVIVE)
  const cells = quantitiesFrom(texts.cells, 'charge', CELLS)
  const panels = quantitiesFrom(texts.panels, 'power', PANELS)
  const intervals = quantitiesFrom(texts.intervals, 'duration', INTERVALS)
  return (
    <WorkPart
      title="Size"
      name="size"
      lead="The smallest cell, the smallest panel and the shortest interval that survive, each with all else as it is; then all of them together."
      desk={desk}
      press="Size it"
      plays={{
        runs: { label: 'Runs of a design at most', low: 1, high: 100_000 },
        years: true,
        weather: true,
      }}
      isWrong={[wanted, cells, panels, intervals].some(({ problem }) => problem !== null)}
      asks={(asked, play) => ({
        work: 'size',
        ...asked,
        ...play,
        wanted: wanted.value,
        partsFile: parts === '' ? null : parts,
        objective: texts.objective,
        axes: { capacities_C: cells.value, powers_W: panels.value, intervals_s: intervals.value },
      })}
      before={
        <div className="fields">
          {field('wanted', 'Share to survive', wanted, 'the aim of the file')}
          {field('cells', 'Cells of the map', cells, 'around that of the file')}
          {outpost?.supply.panel !== null &&
            field('panels', 'Panels, by their best power', panels, 'around that of the file')}
          {field('intervals', 'Intervals', intervals, 'around that of the file')}
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
          {parts !== '' && field('objective', 'with the least (a column of it)', FINE, '')}
        </div>
      }
    >
      {desk.state.is === 'done' && <Found report={desk.state.answer} asked={desk.state.asked} />}
    </WorkPart>
  )
}

const FINE = { value: null, problem: null }

interface FoundProps {
  readonly report: SizingReport
  readonly asked: OfOutpost
}

function Found({ report, asked }: FoundProps) {
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
      <FrontierMap report={report} asked={asked} />
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
