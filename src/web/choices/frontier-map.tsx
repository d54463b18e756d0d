/** The frontier as a map: for each cell and panel the shortest interval that survives; a press takes that design over. */
import { type KeyboardEvent, useState } from 'react'
import type { OfOutpost } from '../../api/work.ts'
import type { Sized } from '../../decisions/sizing.ts'
import type { SizingReport } from '../../report/sizing.ts'
import { charge, duration, hundredths, power, trials } from '../../report/sizing-words.ts'
import { openedNow, useDraft } from '../draft/keeper.ts'
import { FigureFrame } from '../figure/figure-frame.tsx'
import { plain } from '../figure/figure-table.ts'
import { useWidth } from '../figure/use-width.ts'
import { localised } from '../look/shown.ts'
import { placeAmong } from './place-among.ts'
import { useTakeDesign, useWhatSquaresAreOf } from './use-design.ts'

interface Square {
  readonly cell: number
  readonly panel: number
  /** Index of the shortest interval that passes; null where none does. */
  readonly interval: number | null
  readonly sized: Sized | null
}

const C_PER_MAH = 3.6

/** The smallest panel that passes is known for each cell and interval; larger ones pass too. */
function squaresOf({ frontier, study }: SizingReport): Square[] {
  const { smallest } = study.frontier
  const panels = frontier.powers_W.length === 0 ? [null] : frontier.powers_W
  return frontier.capacities_C.flatMap((_, cell) =>
    panels.map((power_W, panel) => {
      const interval = smallest.findIndex((row) => {
        const sized = row[cell]
        return sized !== null && (power_W === null || (sized.panel_W ?? 0) <= power_W * 1.001)
      })
      return {
        cell,
        panel,
        interval: interval < 0 ? null : interval,
        sized: interval < 0 ? null : smallest[interval][cell],
      }
    }),
  )
}

export interface FrontierMapProps {
  readonly report: SizingReport
  /** What was sized. */
  readonly asked: OfOutpost
}

export function FrontierMap({ report, asked }: FrontierMapProps) {
  const { frontier, study, wanted } = report
  const [ref, width] = useWidth()
  const take = useTakeDesign(asked, study.asItIs.design)
  const whatOf = useWhatSquaresAreOf(asked)
  const own = ownPlace(report)
  const [at, setAt] = useState<readonly [number, number]>(() => [
    Math.round(own?.[0] ?? 0),
    Math.round(own?.[1] ?? 0),
  ])
  const [told, setTold] = useTold()
  const columns = frontier.capacities_C.length
  const rows = Math.max(1, frontier.powers_W.length)
  const left = 70
  const top = 22
  const bottom = 76
  const side = (width - left - 8) / columns
  const tall = Math.max(24, Math.min(36, side))
  const height = top + rows * tall + bottom
  const middleOf = (column: number) => left + (column + 0.5) * side
  const heightOf = (row: number) => top + (rows - 0.5 - row) * tall
  const squares = squaresOf(report)
  const squareAt = ([cell, panel]: readonly [number, number]) => squares[cell * rows + panel]
  const words = (square: Square) => wordsOf(square, report)
  const choose = (square: Square) => {
    const { interval } = square
    if (interval === null) return setTold(null)
    const chosen = {
      capacity_C: frontier.capacities_C[square.cell],
      panel_W: frontier.powers_W[square.panel] ?? null,
      interval_s: frontier.intervals_s[interval] ?? null,
    }
    const refused = take(chosen, nameOf(square, report))
    setTold(
      refused === null
        ? `Taken over into the file, and Undo takes it back: ${words(square)}`
        : `Nothing was written. ${refused}`,
    )
  }
  const onKey = (event: KeyboardEvent) => {
    const [cell, panel] = at
    const to = {
      ArrowLeft: [cell - 1, panel],
      ArrowRight: [cell + 1, panel],
      ArrowUp: [cell, panel + 1],
      ArrowDown: [cell, panel - 1],
      Home: [0, panel],
      End: [columns - 1, panel],
    }[event.key]
    if (to !== undefined) {
      event.preventDefault()
      setTold(null)
      setAt([clamp(to[0], columns), clamp(to[1], rows)])
    } else if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault()
      choose(squareAt(at))
    }
  }
  const isNarrow = side < 46
  return (
    <FigureFrame
      name="frontier"
      title="Cell, panel and interval"
      caption={`In each square the shortest interval that survives ${hundredths(wanted)} ${trials(report)} with that cell${frontier.powers_W.length > 0 ? ' and that panel' : ''}; an empty square survives at none of the intervals looked at.${own === null ? '' : ' Small triangles on the edges mark the design as it is.'} Press a square, or choose it with the arrow keys and Enter, to take that design over into the file.`}
      table={{
        head: [
          'cell (mAh)',
          ...(frontier.powers_W.length > 0 ? ['panel (mW)'] : []),
          'shortest interval (s)',
          'of 100 that survive it with the smallest panel',
        ],
        rows: squares.map(({ cell, panel, interval, sized }) => [
          plain(frontier.capacities_C[cell] / C_PER_MAH),
          ...(frontier.powers_W.length > 0 ? [plain(1000 * frontier.powers_W[panel])] : []),
          interval === null ? 'none' : (frontier.intervals_s[interval] ?? 'as it is'),
          sized === null ? '' : plain(100 * sized.survival.share, 4),
        ]),
      }}
    >
      <div ref={ref}>
        <div
          className="map"
          role="slider"
          tabIndex={0}
          aria-label="Map of cells and panels: arrow keys choose, Enter takes the design over"
          aria-valuemin={0}
          aria-valuemax={squares.length - 1}
          aria-valuenow={at[0] * rows + at[1]}
          aria-valuetext={words(squareAt(at))}
          onKeyDown={onKey}
        >
          <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
            {squares.map((square) => {
              const { cell, panel, interval } = square
              const x = left + cell * side
              const y = top + (rows - 1 - panel) * tall
              const isAt = at[0] === cell && at[1] === panel
              const depth = interval === null ? 0 : 1 - interval / Math.max(1, frontier.intervals_s.length)
              return (
                // biome-ignore lint/a11y/noStaticElementInteractions: the map around it answers keys
                <g
                  key={`${cell} ${panel}`}
                  className={`square ${interval === null ? 'is-none' : ''} ${isAt ? 'is-at' : ''}`}
                  data-square={`${cell},${panel}`}
                  onClick={() => {
                    setAt([cell, panel])
                    choose(square)
                  }}
                >
                  <title>{words(square)}</title>
                  <rect
                    x={x + 1}
                    y={y + 1}
                    width={side - 2}
                    height={tall - 2}
                    fillOpacity={0.15 + 0.75 * depth}
                  />
                  {interval !== null && !isNarrow && (
                    <text x={x + side / 2} y={y + tall / 2} dy="0.35em" textAnchor="middle">
                      {shortName(frontier.intervals_s[interval])}
                    </text>
                  )}
                </g>
              )
            })}
            {own !== null && (
              <path
                className="own"
                d={`M${left - 1} ${heightOf(own[1])}l-6 -4v8zM${middleOf(own[0])} ${top + rows * tall + 1}l-4 6h8z`}
              />
            )}
            <g className="axis">
              {frontier.powers_W.length > 0 && (
                <text className="axis-name" x={4} y={12}>
                  panel
                </text>
              )}
              <text className="axis-name" x={width - 8} y={height - 4} textAnchor="end">
                cell
              </text>
              {frontier.powers_W.map((power_W, panel) => (
                <text key={power_W} x={left - 8} y={heightOf(panel)} dy="0.35em" textAnchor="end">
                  {localised(power(power_W))}
                </text>
              ))}
              {frontier.capacities_C.map((capacity_C, cell) => (
                <text
                  key={capacity_C}
                  textAnchor="end"
                  transform={`translate(${middleOf(cell) + 4},${top + rows * tall + 14}) rotate(-38)`}
                >
                  {localised(charge(capacity_C))}
                </text>
              ))}
            </g>
          </svg>
        </div>
        <p className="readout" role="status">
          {told ?? words(squareAt(at))}
        </p>
        {whatOf !== null && <p className="hint squares-of">{whatOf}</p>}
      </div>
    </FigureFrame>
  )
}

/** Of the design as it is, in columns and rows; null where it lies outside the map. */
function ownPlace({ frontier, study }: SizingReport): readonly [number, number] | null {
  const { capacity_C, panel_W } = study.asItIs.design
  const column = placeAmong(frontier.capacities_C, capacity_C)
  const row = frontier.powers_W.length === 0 ? 0 : placeAmong(frontier.powers_W, panel_W)
  return column === null || row === null ? null : [column, row]
}

const clamp = (value: number, count: number): number => Math.max(0, Math.min(count - 1, value))

const shortName = (interval_s: number | null): string =>
  interval_s === null ? '✓' : localised(duration(interval_s)).replace(' min', '′').replace(' s', '″')

/** What the last press came to: told while the file is as it left it. */
function useTold(): readonly [string | null, (words: string | null) => void] {
  const [told, setTold] = useState<{ readonly words: string; readonly text: string } | null>(null)
  const text = useDraft()?.text
  const tell = (words: string | null) => {
    const now = openedNow()
    setTold(words === null || now.is !== 'open' ? null : { words, text: now.draft.text })
  }
  return [told !== null && told.text === text ? told.words : null, tell]
}

function nameOf({ cell, panel }: Square, { frontier }: SizingReport): string {
  const with_ = frontier.powers_W.length === 0 ? '' : ` with a panel of ${power(frontier.powers_W[panel])}`
  return `a cell of ${charge(frontier.capacities_C[cell])}${with_}`
}

function wordsOf(square: Square, report: SizingReport): string {
  const { interval } = square
  const { frontier } = report
  const design = nameOf(square, report).replace(/^a/, 'A')
  if (interval === null) return localised(`${design}: survives at none of the intervals.`)
  const interval_s = frontier.intervals_s[interval]
  return localised(
    `${design}: ${interval_s === null ? 'survives' : `a wake every ${duration(interval_s)} survives`}.`,
  )
}
