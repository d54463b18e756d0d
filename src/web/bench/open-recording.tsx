/** A recording that is open: its trace and notes at once, its states when they are found, and what can be done with it. */
import { useEffect, useMemo, useState } from 'react'
import type { Imported, ReadAnswer, SpanAnswer } from '../../api/bench.ts'
import { duration } from '../../report/recording-words.ts'
import { useDraft } from '../draft/keeper.ts'
import { momentShown, numberShown, unbroken } from '../look/shown.ts'
import type { BenchAddress } from './address.ts'
import { AdoptPart } from './adopt-part.tsx'
import { CheckPart } from './check-part.tsx'
import { ComparePart } from './compare-part.tsx'
import { CyclesWords } from './cycles-words.tsx'
import { ExportPart } from './export-part.tsx'
import { FlawsPart } from './flaws-part.tsx'
import { HistogramFigure } from './histogram-figure.tsx'
import { MeasuredWith } from './measured-with.tsx'
import { OddWakes } from './odd-wakes.tsx'
import { ReadingWords, useReading } from './reading.tsx'
import { lastOf, useSpan } from './sampled.ts'
import { StatesTable } from './states-table.tsx'
import { around, type Limits } from './trace/window.ts'
import { TracePart } from './trace-part.tsx'
import { useMatch } from './use-match.ts'
import { WakesFigure } from './wakes-figure.tsx'

export interface OpenRecordingProps {
  readonly bench: BenchAddress
  readonly change: (change: Partial<BenchAddress>, quietly?: boolean) => void
  readonly imported: Imported
  readonly query: string
  /** It was changed on the disk, or what was kept of it is gone. */
  readonly onAgain: () => void
}

export function OpenRecording({ bench, change, imported, query, onAgain }: OpenRecordingProps) {
  const whole = useSpan(query, useWhole(imported))
  const { state, answer, start, cancel } = useReading(bench, imported)
  const match = useMatch(answer?.reading ?? null)
  const [refusal, setRefusal] = useState<string | null>(null)
  const draft = useDraft()
  const limits = useMemo(() => limitsOf(imported), [imported])
  const wholeSpan = lastOf(whole)
  const read = useMemo(() => answer && { reading: answer.reading, bands: answer.bands }, [answer])
  if (whole.is === 'refused') return <Gone why={whole.why} onAgain={onAgain} />
  if (wholeSpan === null) return <p className="waiting">Opening {imported.file} …</p>
  return (
    <>
      {refusal !== null && <Gone why={refusal} onAgain={onAgain} />}
      <header className="bench-head">
        <h2>{imported.file}</h2>
        <p className="faint">{aboutWords(imported)}</p>
      </header>
      <ReadingWords
        state={state}
        answer={answer}
        imported={imported}
        bench={bench}
        onStart={start}
        onCancel={cancel}
      />
      <TracePart
        bench={bench}
        change={change}
        imported={imported}
        query={query}
        whole={wholeSpan}
        read={read}
        onRefusal={setRefusal}
      />
      <FlawsPart imported={imported} bench={bench} limits={limits} />
      {answer !== null && <StatesTable reading={answer.reading} />}
      {answer !== null && <CyclesWords reading={answer.reading} all={answer.cycles} />}
      <MeasuredWith bench={bench} change={change} hasVoltage={imported.hasVoltage} />
      {answer !== null && <Wakes answer={answer} query={query} change={change} limits={limits} />}
      <Histogram bench={bench} query={query} whole={wholeSpan} />
      {draft !== null && answer !== null && (
        <>
          <AdoptPart bench={bench} draft={draft} match={match} />
          <CheckPart bench={bench} draft={draft} match={match} />
        </>
      )}
      {draft === null && (
        <section className="part">
          <h2>Beside an outpost</h2>
          <p>
            Choose an outpost at the top, and what was measured can be written into it, or held against its
            budget.
          </p>
        </section>
      )}
      <ComparePart bench={bench} change={change} draft={draft} />
      <ExportPart
        bench={bench}
        query={query}
        duration_s={imported.duration_s}
        hasVoltage={imported.hasVoltage}
      />
    </>
  )
}

const useWhole = ({ duration_s }: Imported) => useMemo(() => ({ from_s: 0, to_s: duration_s }), [duration_s])

const limitsOf = ({ duration_s, interval_s, even }: Imported): Limits => ({
  duration_s,
  shortest_s: interval_s * (even ? 4 : 0.01),
})

function aboutWords({ samples, duration_s, interval_s, even, origin, notes }: Imported): string {
  const rate = `${even ? '' : 'about '}${duration(interval_s)}`
  const began =
    origin.kind === 'clock'
      ? `; it began ${momentShown(origin.epoch_s)}${origin.zoned ? '' : ', taken as UTC'}`
      : ''
  // Count and moment are the reader's own already: points in them are not decimal points.
  return `${numberShown(samples, 15)} samples, ${unbroken(`one every ${rate}, ${duration(duration_s)} in all`)}${began}. ${unbroken(`Read: ${notes.join('; ')}.`)}`
}

function Gone({ why, onAgain }: { readonly why: string; readonly onAgain: () => void }) {
  return (
    <p className="problem error">
      {why}{' '}
      <button type="button" className="quiet" onClick={onAgain}>
        Open it again
      </button>
    </p>
  )
}

function Wakes({
  answer,
  query,
  change,
  limits,
}: { readonly answer: ReadAnswer; readonly limits: Limits } & Pick<OpenRecordingProps, 'query' | 'change'>) {
  const [odd, setOdd] = useState<number | null>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: another reading has other wakes
  useEffect(() => setOdd(null), [answer])
  if (answer.density === null) return null
  const { reading } = answer
  const choose = (cycle: number | null) => {
    setOdd(cycle)
    if (cycle === null) return
    const { start_s, work_s } = reading.cycles.list[cycle]
    const from_s = reading.span.from_s + start_s
    change({ window: around({ from_s, to_s: from_s + work_s }, limits, 0.15) })
  }
  return (
    <>
      <WakesFigure answer={answer} density={answer.density} query={query} odd={odd} />
      <OddWakes reading={reading} chosen={odd} onChoose={choose} />
    </>
  )
}

/** Of the last note, or of what is in sight. */
function Histogram({
  bench,
  query,
  whole,
}: { readonly whole: SpanAnswer } & Pick<OpenRecordingProps, 'bench' | 'query'>) {
  const note = bench.notes.at(-1) ?? null
  const span = note ?? bench.window
  const of =
    note !== null ? `note ${bench.notes.length}` : bench.window !== null ? 'what is in sight' : 'the whole'
  const answer = lastOf(useSpan(query, span))
  const shown = span === null ? whole : answer
  return shown === null ? null : <HistogramFigure span={shown} of={of} />
}
