/** A link within the workbench: a real address, followed without loading the page anew. */
import type { MouseEvent, ReactNode } from 'react'
import { addressOf, type Route, routeTo } from '../route.ts'
import { turnPage } from './turn-page.ts'

export interface PageLinkProps {
  readonly to: Partial<Route>
  readonly children: ReactNode
  readonly className?: string
  readonly isCurrent?: boolean
}

export function PageLink({ to, children, className, isCurrent }: PageLinkProps) {
  const follow = (event: MouseEvent) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return
    event.preventDefault()
    turnPage(to)
  }
  return (
    <a
      href={addressOf(routeTo(to))}
      onClick={follow}
      className={className}
      aria-current={isCurrent ? 'page' : undefined}
    >
      {children}
    </a>
  )
}
