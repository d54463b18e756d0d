/** A value that components watch. One holder, plain data inside; whoever sets it tells all who look. */
import { useSyncExternalStore } from 'react'

export interface Store<T> {
  readonly get: () => T
  readonly set: (next: T | ((now: T) => T)) => void
  readonly watch: (listener: () => void) => () => void
}

export function storeOf<T>(initial: T): Store<T> {
  let value = initial
  const listeners = new Set<() => void>()
  return {
    get: () => value,
    set(next) {
      const changed = typeof next === 'function' ? (next as (now: T) => T)(value) : next
      if (Object.is(changed, value)) return
      value = changed
      for (const listener of [...listeners]) listener()
    },
    watch(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

export const useStore = <T>(store: Store<T>): T => useSyncExternalStore(store.watch, store.get)
