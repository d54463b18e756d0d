/** The address is the view: page, file, variant and whatever a page adds, so that a link shows others the same. */
import { storeOf, useStore } from './store.ts'

/** In the order of the job. */
export const PAGES = ['start', 'wake', 'supply', 'place', 'outlook', 'choices', 'bench'] as const
export type PageName = (typeof PAGES)[number]

export interface Route {
  readonly page: PageName
  readonly file: string | null
  readonly variant: string | null
  /** What the page itself keeps in the address, as text. */
  readonly more: Readonly<Record<string, string>>
}

export function routeOf(url: URL): Route {
  const name = url.pathname.replace(/^\/+|\/+$/g, '')
  const { file = null, variant = null, ...more } = Object.fromEntries(url.searchParams)
  return { page: PAGES.find((page) => page === name) ?? 'start', file, variant, more }
}

export function addressOf({ page, file, variant, more }: Route): string {
  const search = new URLSearchParams({
    ...(file === null ? {} : { file }),
    ...(variant === null ? {} : { variant }),
    ...more,
  })
  const text = search.toString().replaceAll('%2F', '/')
  return `/${page}${text === '' ? '' : `?${text}`}`
}

const route = storeOf(routeOf(new URL(location.href)))
addEventListener('popstate', () => route.set(routeOf(new URL(location.href))))

export const useRoute = (): Route => useStore(route)
export const routeNow = route.get
export const watchRoute = route.watch

/** Another page keeps file and variant, and drops what the last page had in the address. */
export function routeTo(change: Partial<Route>): Route {
  const now = route.get()
  const more = change.page === undefined || change.page === now.page ? now.more : {}
  return { ...now, more, ...change }
}

/** `quietly` replaces the address instead of adding one to go back to. */
export function go(change: Partial<Route>, { quietly = false } = {}): void {
  const next = routeTo(change)
  const address = addressOf(next)
  if (quietly) history.replaceState(null, '', address)
  else if (address !== location.pathname + location.search) history.pushState(null, '', address)
  route.set(next)
}
