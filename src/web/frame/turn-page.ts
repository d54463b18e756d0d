/** To another page, as a link leads there: what had the focus is gone, so the page's beginning gets it. */
import { go, type Route } from '../route.ts'

export function turnPage(to: Partial<Route>): void {
  go(to)
  document.getElementById('content')?.focus({ preventScroll: true })
  scrollTo({ top: 0 })
}
