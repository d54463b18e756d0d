/** The trace as a figure, with what steers it, its notes in the margin, and its numbers. */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import type { Imported, SpanAnswer } from '../../api/bench.ts'
import { formatQuantity } from '../../quantity/format.ts'
import type { RecordingReading, StateBands } from '../../report/recording-reading.ts'
import { chargeInWords, duration } from '../../report/recording-words.ts'
import { FigureFrame } from '../figure/figure-frame.tsx'
import type { FigureTable } from '../figure/figure-table.ts'
import { localised } from '../look/shown.ts'
import type { BenchAddress } from './address.ts'
import { Notes } from './notes.tsx'
import { lastOf, useSpan } from './sampled.ts'
import type { Extent } from './trace/current-scale.ts'
import type { TraceDesk } from './trace/desk.ts'
import { placeShown } from './trace/read-out.ts'
import { Trace } from './trace/trace.tsx'
import { around, type Window } from './trace/window.ts'
import { TraceControls } from './trace-controls.tsx'

export interface TracePartProps {
  readonly bench: BenchAddress
  readonly change: (change: Partial<BenchAddress>, quietly?: boolean) => void
  readonly imported: Imported
  readonly query: string
  readonly whole: SpanAnswer
  /** Null while the states are not known. */
  readonly read: { readonly reading: RecordingReading; readonly bands: StateBands } | null
  readonly onRefusal: (why: string) => void
}

const TABLE_ROWS = 120

export function TracePart({ bench, change, imported, query, whole, read, onRefusal }: TracePartProps) {
  const { duration_s, interval_s, even, file } = imported
  const desk = useRef<TraceDesk | null>(null)
  const source = useMemo(
    () => ({ query, grid: { interval_s, duration_s, even } }),
    [query, interval_s, duration_s, even],
  )
  const limits = useMemo(
    () => ({ duration_s, shortest_s: interval_s * (even ? 4 : 0.01) }),
    [duration_s, interval_s, even],
  )
  const window = bench.window ?? { from_s: 0, to_s: duration_s }
  const sight = lastOf(useSpan(query, window))
  const { notes, keep, moveEdge } = useNotes(bench, change)
  const [marking, setMarking] = useState<Window | null>(null)
  const [chosen, setChosen] = useState<number | null>(null)
  const [marks, setMarks] = useState(false)
  const [table, setTable] = useState<FigureTable>({ head: [], rows: [] })
  const extent = useMemo(() => extentOf(imported, whole, read?.reading ?? null), [imported, whole, read])
  const states = useMemo(
    () => (read?.reading.states ?? []).map(({ name, mean_A, rests }) => ({ name, mean_A, rests })),
    [read],
  )
  const drawn = useMemo(() => (marking === null ? notes : [...notes, marking]), [notes, marking])

  const add = useCallback(
    (span: Window) => {
      keep([...notes, span])
      setChosen(notes.length)
    },
    [notes, keep],
  )
  const remove = (note: number) => {
    keep(notes.filter((_, k) => k !== note))
    setChosen(null)
  }
  const onMark = () => {
    const now = desk.current?.window ?? window
    const third = (now.to_s - now.from_s) / 3
    add({ from_s: now.from_s + third, to_s: now.to_s - third })
    requestAnimationFrame(() => document.querySelector<HTMLElement>('.edge')?.focus())
  }
  const fillTable = () => setTable(tableOf(desk.current))
  const onSettled = (now: Window) => {
    const isWhole = now.from_s <= 0 && now.to_s >= duration_s
    change({ window: isWhole ? null : now }, true)
    fillTable()
  }
  const onChoose = (note: number) => {
    setChosen(note)
    const span = notes[note]
    const now = desk.current?.window
    if (now !== undefined && (span.from_s < now.from_s || span.to_s > now.to_s))
      desk.current?.move(around(span, limits))
  }
  const name = file.replace(/^.*\//, '').replace(/\.\w+(\.gz)?$/, '')
  return (
    <div className="trace-part">
      <FigureFrame
        name={`${name}-trace`}
        title="Current over time"
        caption={<Caption sight={sight} window={window} scale={bench.scale} isRead={read !== null} />}
        table={table}
        tableNow={() => tableOf(desk.current)}
        asSvg={() => desk.current?.svg(`Current over time of ${file}`) ?? ''}
        controls={
          <TraceControls
            bench={bench}
            change={change}
            desk={desk}
            marks={marks}
            onMarks={setMarks}
            onMark={onMark}
          />
        }
      >
        <Trace
          source={source}
          window={bench.window}
          label={`Current over time of ${file}`}
          scale={bench.scale}
          fits={bench.fits}
          extent={extent}
          states={states}
          bands={read?.bands ?? null}
          notes={drawn}
          chosen={marking === null ? chosen : notes.length}
          marks={marks}
          deskRef={desk}
          onSettled={onSettled}
          onFilled={fillTable}
          onRefusal={onRefusal}
          onMarking={setMarking}
          onMarked={(span) => {
            setMarking(null)
            if (span !== null) add(span)
          }}
          onEdge={moveEdge}
          onMark={onMark}
          onRemove={remove}
        />
      </FigureFrame>
      <Notes
        bench={bench}
        query={query}
        limits={limits}
        read={read}
        notes={notes}
        marking={marking}
        chosen={chosen}
        onChoose={onChoose}
        onRemove={remove}
      />
    </div>
  )
}

/** So long an edge stands still before the address follows: browsers count how often it changes. */
const QUIET_MS = 300

/** Notes as they are at this moment, ahead of the address. */
function useNotes(bench: BenchAddress, change: TracePartProps['change']) {
  const [own, setOwn] = useState<readonly Window[] | null>(null)
  const latest = useRef(change)
  latest.current = change
  useEffect(() => {
    if (own === null) return
    const timer = setTimeout(() => {
      latest.current({ notes: own }, true)
      setOwn(null)
    }, QUIET_MS)
    return () => clearTimeout(timer)
  }, [own])
  const notes = own ?? bench.notes
  return {
    notes,
    /** A step that the way back undoes. */
    keep: useCallback((next: readonly Window[]) => {
      setOwn(null)
      latest.current({ notes: next })
    }, []),
    moveEdge: (note: number, span: Window) => setOwn(notes.map((each, k) => (k === note ? span : each))),
  }
}

function extentOf({ min_A, max_A }: Imported, whole: SpanAnswer, reading: RecordingReading | null): Extent {
  const lowest = reading?.states.find(({ mean_A }) => mean_A > 0)?.mean_A
  return { min_A: min_A ?? 0, usual_A: lowest ?? whole.quantiles_A[0] ?? 0, max_A: max_A ?? 0 }
}

function tableOf(desk: TraceDesk | null): FigureTable {
  if (desk === null) return { head: [], rows: [] }
  return {
    head: ['from (s)', 'lowest (A)', 'mean (A)', 'highest (A)'],
    rows: desk
      .table(TABLE_ROWS)
      .map((row) =>
        [row.from_s, row.min_A, row.mean_A, row.max_A].map((x) =>
          Number.isNaN(x) ? '' : Number(x.toPrecision(7)),
        ),
      ),
  }
}

interface CaptionProps {
  readonly sight: SpanAnswer | null
  readonly window: Window
  readonly scale: BenchAddress['scale']
  readonly isRead: boolean
}

function Caption({ sight, window, scale, isRead }: CaptionProps) {
  const amount = (current_A: number) => localised(formatQuantity(current_A, 'current', { digits: 4 }))
  const place = `${placeShown(window.from_s, window)} to ${placeShown(window.to_s, window)}`
  const told =
    sight === null || sight.mean_A === null || sight.min_A === null || sight.max_A === null
      ? 'nothing was measured there'
      : `${localised(duration(sight.duration_s))} between ${amount(sight.min_A)} and ${amount(sight.max_A)}, ${amount(sight.mean_A)} on average: ${localised(chargeInWords({ charge_C: sight.charge_C, u_C: null }))}`
  return (
    <>
      From {place}: {told}. Each column of the drawing reaches from the lowest to the highest sample in it, so
      that no spike is lost; the thin line is the mean.
      {scale === 'log' &&
        sight?.min_A != null &&
        sight.min_A <= 0 &&
        ' What is at zero or below lies on the foot of the logarithmic axis.'}
      {isRead && ' Below, a row for each state shows when it held.'}
    </>
  )
}
