/** Files of the folder that anyone changed, told as they happen; the browser connects again by itself. */
import type { FileChanged } from '../../api/files.ts'
import { storeOf, useStore } from '../store.ts'

const connected = storeOf(true)
/** False while the server does not answer. */
export const useConnected = (): boolean => useStore(connected)

/** `onReconnect` is called when the server is back: changes in between were not told. */
export function watchFiles(onChange: (change: FileChanged) => void, onReconnect: () => void): () => void {
  const source = new EventSource('/api/events')
  source.onmessage = ({ data }) => onChange(JSON.parse(data as string) as FileChanged)
  source.onopen = () => {
    if (!connected.get()) onReconnect()
    connected.set(true)
  }
  source.onerror = () => connected.set(false)
  return () => source.close()
}
