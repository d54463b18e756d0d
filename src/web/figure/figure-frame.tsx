/** A figure: the drawing, a caption in sentences, the numbers behind it, and both to take away as SVG and CSV. */
import { type ReactNode, useId, useRef } from 'react'
import { localised } from '../look/shown.ts'
import type { FigureTable } from './figure-table.ts'
import { saveAs, saveCsv, saveSvg } from './save.ts'

export interface FigureFrameProps {
  /** The name of files saved from it, in kebab case. */
  readonly name: string
  readonly title: string
  readonly caption: ReactNode
  readonly table: FigureTable
  /** Whatever is drawn; its first `<svg>` is what is saved. */
  readonly children: ReactNode
  /** Where what is shown is no SVG: the same, drawn as one that stands alone. */
  readonly asSvg?: () => string
  /** Where the numbers shown follow the drawing after a moment: those of this moment, to be saved. */
  readonly tableNow?: () => FigureTable
  /** Beside the title: choices of what is drawn. */
  readonly controls?: ReactNode
}

export function FigureFrame(props: FigureFrameProps) {
  const { name, title, caption, table, children, asSvg, tableNow, controls } = props
  const drawing = useRef<HTMLDivElement>(null)
  const titled = useId()
  const save = () => {
    if (asSvg === undefined) saveSvg(drawing.current?.querySelector('svg') ?? null, name)
    else saveAs(`${name}.svg`, asSvg(), 'image/svg+xml')
  }
  return (
    <figure className="figure" aria-labelledby={titled}>
      <div className="figure-head">
        <h2 id={titled}>{title}</h2>
        {controls}
      </div>
      <div className="drawing" ref={drawing}>
        {children}
      </div>
      <figcaption>{caption}</figcaption>
      <div className="figure-foot">
        <details>
          <summary>The numbers</summary>
          <NumbersTable {...table} label={title} />
        </details>
        <button type="button" className="quiet" onClick={save}>
          Save drawing (SVG)
        </button>
        <button type="button" className="quiet" onClick={() => saveCsv(tableNow?.() ?? table, name)}>
          Save numbers (CSV)
        </button>
      </div>
    </figure>
  )
}

export function NumbersTable({ head, rows, label }: FigureTable & { readonly label: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="wide" tabIndex={0} aria-label={`${label}, table`}>
      <table>
        <thead>
          <tr>
            {head.map((text) => (
              <th key={text} scope="col">
                {text}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other name
            <tr key={i}>
              {row.map((cell, k) => (
                <td key={head[k]}>{typeof cell === 'number' ? localised(String(cell)) : cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
