/** What the rows of a CSV text hold and how they are written: plain data, so that it can go to another thread. */

/** A `day` is a date beside a column of clock times, and is added to them. */
export const ROLES = ['time', 'current', 'voltage', 'day'] as const

/** One column that is wanted. The value read is number · 10^shift · factor − origin. */
export interface ColumnPlan {
  readonly role: (typeof ROLES)[number]
  /** Place in the line, from 0. */
  readonly index: number
  readonly kind: 'number' | 'calendar'
  /** Of calendar times: whether `5/6/2026` is in May. */
  readonly monthFirst?: boolean
  readonly shift: number
  readonly factor: number
  readonly origin: number
}

export interface RowPlan {
  readonly separator: number
  /** Separators in a row count as one (columns lined up with spaces). */
  readonly merge: boolean
  readonly mark: number
  readonly comments: readonly number[]
  /** In rising order of place, at most one per role. */
  readonly columns: readonly ColumnPlan[]
}
