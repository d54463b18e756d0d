/** A list of the file whose entries are mappings, as a table that one types into: rows are added, moved, taken away. */
import './typed-table.css'
import { type ReactNode, useId, useRef, useState } from 'react'
import type { Path } from '../../outpost/file/diagnostic.ts'
import type { PlainData } from '../../outpost/file/edit-render.ts'
import { Choice, Field } from './field.tsx'
import { useForm } from './form.ts'
import { focusField, KEYS_HINT, onRowKey } from './row-keys.ts'
import { RowProblems } from './row-problems.tsx'

export interface Column {
  readonly key: string
  readonly head: string
  /** Share of the width, against those of the other columns. */
  readonly width: number
  readonly placeholder?: string
  readonly offers?: readonly string[]
  /** Where it is one of a few words: value in the file to words on the page. */
  readonly options?: Readonly<Record<string, string>>
}

export interface TypedTableProps {
  readonly path: Path
  readonly label: string
  /** What one row is, as in "Add a step". */
  readonly what: string
  /** The first names the row. */
  readonly columns: readonly Column[]
  readonly blank: PlainData
  /** Below a row that is opened, and the keys that are edited there. */
  readonly more?: { readonly keys: readonly string[]; readonly show: (path: Path, name: string) => ReactNode }
}

export function TypedTable({ path, label, what, columns, blank, more }: TypedTableProps) {
  const form = useForm()
  const hint = useId()
  const box = useRef<HTMLDivElement>(null)
  const [opened, setOpened] = useState<readonly number[]>([])
  const count = form.entriesAt(path).length
  const onAdd = (index: number) => {
    form.addItem(path, index, blank)
    setOpened(opened.map((each) => (each >= index ? each + 1 : each)))
    focusField([...path, index, columns[0].key])
  }
  const onRemove = (index: number) => {
    form.remove([...path, index], `taking away ${nameAt(index)}`)
    setOpened(opened.flatMap((each) => (each === index ? [] : each > index ? each - 1 : each)))
  }
  const onMove = (from: number, to: number) => {
    form.move(path, from, to, `moving ${nameAt(from)}`)
    setOpened(opened.map((each) => (each === from ? to : each === to ? from : each)))
  }
  /** Once the page shows what a tool did: the focus follows its row, or stays where the row was. */
  const focusRow = (index: number, sign: string) =>
    requestAnimationFrame(() => {
      const row = box.current?.querySelectorAll('tbody')[index]
      const tool = row?.querySelector<HTMLElement>(`button[data-sign="${sign}"]:enabled`)
      const field = row?.querySelector<HTMLElement>('input, select')
      const add = box.current?.querySelector<HTMLElement>('.buttons button')
      ;(tool ?? field ?? add)?.focus()
    })
  const onMoveTool = (from: number, to: number, sign: string) => {
    onMove(from, to)
    focusRow(to, sign)
  }
  const nameAt = (index: number): string => {
    const value = form.valueAt([...path, index, columns[0].key])
    return value.kind === 'text' && value.text !== '' ? value.text : `${what} ${index + 1}`
  }
  const total = columns.reduce((sum, { width }) => sum + width, 0)
  return (
    <div className="typed-table" ref={box}>
      {count > 0 && (
        <table className="typed" aria-label={label} aria-describedby={hint}>
          <colgroup>
            {columns.map(({ key, width }) => (
              <col key={key} style={{ width: `${(100 * width) / total}%` }} />
            ))}
            <col className="row-tools" />
          </colgroup>
          <thead>
            <tr>
              {columns.map(({ key, head }) => (
                <th key={key} scope="col">
                  {head}
                </th>
              ))}
              <td />
            </tr>
          </thead>
          {Array.from({ length: count }, (_, index) => (
            <tbody
              // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the file
              key={index}
              onKeyDown={(event) => onRowKey(event, { path, index, count, onAdd, onRemove, onMove })}
            >
              <tr>
                {columns.map((column, k) => (
                  <td key={column.key} data-head={column.head}>
                    <Cell
                      path={[...path, index, column.key]}
                      column={column}
                      row={k === 0 ? `${what} ${index + 1}` : nameAt(index)}
                    />
                  </td>
                ))}
                <td className="row-tools">
                  {more !== undefined && (
                    <button
                      type="button"
                      className="quiet"
                      aria-expanded={opened.includes(index)}
                      onClick={() =>
                        setOpened(
                          opened.includes(index)
                            ? opened.filter((each) => each !== index)
                            : [...opened, index],
                        )
                      }
                    >
                      {opened.includes(index) ? 'less' : 'more'}
                      <span className="for-ears"> of {nameAt(index)}</span>
                    </button>
                  )}
                  <Tool
                    sign="↑"
                    name={`Move ${nameAt(index)} up`}
                    isOff={index === 0}
                    on={() => onMoveTool(index, index - 1, '↑')}
                  />
                  <Tool
                    sign="↓"
                    name={`Move ${nameAt(index)} down`}
                    isOff={index === count - 1}
                    on={() => onMoveTool(index, index + 1, '↓')}
                  />
                  <Tool
                    sign="×"
                    name={`Take ${nameAt(index)} away`}
                    isOff={false}
                    on={() => {
                      onRemove(index)
                      focusRow(Math.min(index, count - 2), '×')
                    }}
                  />
                </td>
              </tr>
              <RowProblems
                path={[...path, index]}
                except={opened.includes(index) ? (more?.keys ?? []) : []}
                span={columns.length + 1}
              />
              {more !== undefined && opened.includes(index) && (
                <tr className="row-more">
                  <td colSpan={columns.length + 1}>{more.show([...path, index], nameAt(index))}</td>
                </tr>
              )}
            </tbody>
          ))}
        </table>
      )}
      <div className="buttons">
        <button type="button" className="quiet" onClick={() => onAdd(count)}>
          Add a {what}
        </button>
        {count > 0 && (
          <p className="hint keys-hint" id={hint}>
            {KEYS_HINT}
          </p>
        )}
      </div>
    </div>
  )
}

function Cell({ path, column, row }: { readonly path: Path; readonly column: Column; readonly row: string }) {
  const { head, options, placeholder, offers } = column
  const shared = { path, label: `${row}: ${head}`, isLabelHidden: true, isProblemElsewhere: true }
  if (options !== undefined) return <Choice {...shared} options={options} />
  return (
    <Field
      {...shared}
      {...(placeholder === undefined ? {} : { placeholder })}
      {...(offers === undefined ? {} : { offers })}
    />
  )
}

interface ToolProps {
  readonly sign: string
  readonly name: string
  readonly isOff: boolean
  readonly on: () => void
}

function Tool({ sign, name, isOff, on }: ToolProps) {
  return (
    <button
      type="button"
      className="quiet"
      aria-label={name}
      title={name}
      data-sign={sign}
      disabled={isOff}
      onClick={on}
    >
      {sign}
    </button>
  )
}
