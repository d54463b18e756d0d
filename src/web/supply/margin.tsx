/** What a part of the supply leaves in hand, or lacks: said in words, never by colour alone. */
import type { ReactNode } from 'react'

export interface MarginProps {
  /** In its unit; below zero it is lacking. */
  readonly value: number
  readonly format: (value: number) => string
  /** What for. */
  readonly children: ReactNode
}

export function Margin({ value, format, children }: MarginProps) {
  return (
    <p className={`margin ${value < 0 ? 'is-short' : ''}`}>
      <strong>{value < 0 ? `short by ${format(-value)}` : `${format(value)} in hand`}</strong> {children}
    </p>
  )
}
