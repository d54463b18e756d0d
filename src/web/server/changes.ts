/**
 * Files of the folder that anyone changed, told as they happen; the browser connects again by itself. A page that is not
 * seen listens to nothing, for a browser keeps no more than six connections to a server, and each tab would take one.
 */
import type { FileChanged } from '../../api/files.ts'
import { storeOf, useStore } from '../store.ts'

const connected = storeOf(true)
/** False while the server does not answer. */
export const useConnected = (): boolean => useStore(connected)

/** `onMissed` is called when it listens again: changes in between were not told. */
export function watchFiles(onChange: (change: FileChanged) => void, onMissed: () => void): () => void {
  let source: EventSource | null = null
  let isLate = false
  const listen = () => {
    const opened = new EventSource('/api/events')
    opened.onmessage = ({ data }) => onChange(JSON.parse(data as string) as FileChanged)
    opened.onopen = () => {
      if (isLate) onMissed()
      isLate = false
      connected.set(true)
    }
    opened.onerror = () => {
      isLate = true
      connected.set(false)
    }
    source = opened
  }
  const leave = () => {
    source?.close()
    source = null
  }
  const look = () => {
    if (document.hidden) {
      isLate = true
      leave()
    } else if (source === null) listen()
  }
  document.addEventListener('visibilitychange', look)
  look()
  return () => {
    document.removeEventListener('visibilitychange', look)
    leave()
  }
}
