/** Keys in a table that one types into: up and down go from row to row, with Alt they move the row itself. */
import type { KeyboardEvent } from 'react'
import { type Path, pathText } from '../../outpost/file/diagnostic.ts'

export interface RowKeys {
  readonly path: Path
  readonly index: number
  readonly count: number
  readonly onAdd: (index: number) => void
  readonly onRemove: (index: number) => void
  readonly onMove: (from: number, to: number) => void
}

/** What is said to whoever cannot see it. */
export const KEYS_HINT =
  'Up and down go from row to row. Alt with up or down moves a row, Alt with Enter adds one below, Alt with Delete takes it away.'

export function onRowKey(
  event: KeyboardEvent,
  { path, index, count, onAdd, onRemove, onMove }: RowKeys,
): void {
  const at = event.target as HTMLElement
  if (event.ctrlKey || event.metaKey || event.shiftKey || !at.matches('input, select')) return
  const step = { ArrowUp: -1, ArrowDown: 1 }[event.key]
  const key = columnOf(at, path)
  if (event.altKey && event.key === 'Enter') onAdd(index + 1)
  else if (event.altKey && event.key === 'Delete') {
    onRemove(index)
    focusField([...path, Math.max(0, Math.min(index, count - 2)), ...key])
  } else if (step === undefined || at.matches('select, input[list]')) return
  else if (index + step < 0 || index + step >= count) return
  else {
    if (event.altKey) onMove(index, index + step)
    focusField([...path, index + step, ...key])
  }
  event.preventDefault()
}

/** The keys of the field within its row. */
function columnOf(field: HTMLElement, path: Path): string[] {
  const within = (field.dataset.path ?? '').slice(pathText(path).length)
  return within.replace(/^\[\d+\]\.?/, '').split('.')
}

/** Once the page shows what was changed. */
export function focusField(path: Path): void {
  const name = pathText(path)
  requestAnimationFrame(() =>
    [...document.querySelectorAll<HTMLElement>('[data-path]')]
      .find((field) => field.dataset.path === name)
      ?.focus(),
  )
}
