/**
 * Files on their way into the folder, piece by piece, so that each can pause, go on and be dropped. They go on while other
 * pages are looked at; a window that is closed drops them.
 */
import type { UploadBegun, UploadKept, UploadReceived } from '../../api/bench.ts'
import { lookAtFolder } from '../draft/folder.ts'
import { answerOf, ask, post } from '../server/ask.ts'
import { storeOf, useStore } from '../store.ts'

export interface Upload {
  readonly key: number
  readonly name: string
  readonly bytes: number
  readonly received: number
  readonly state:
    | { readonly is: 'sending' | 'paused' }
    /** It waits for a cure, and can go on. */
    | { readonly is: 'held'; readonly why: string }
    | { readonly is: 'kept'; readonly file: string }
    | { readonly is: 'refused'; readonly why: string }
}

interface Way {
  readonly file: File
  /** Never given up half way, so that whatever was begun can be dropped; null before. */
  begun: Promise<UploadBegun> | null
  id: string | null
  controller: AbortController
}

const uploads = storeOf<readonly Upload[]>([])
export const useUploads = (): readonly Upload[] => useStore(uploads)

const ways = new Map<number, Way>()
let next = 1

const change = (key: number, part: Partial<Upload>): void =>
  uploads.set((now) => now.map((each) => (each.key === key ? { ...each, ...part } : each)))

/** `onKept` hears under which name it is in the folder. */
export function send(file: File, onKept: (file: string) => void): void {
  const key = next++
  ways.set(key, { file, begun: null, id: null, controller: new AbortController() })
  uploads.set((now) => [
    ...now,
    { key, name: file.name, bytes: file.size, received: 0, state: { is: 'sending' } },
  ])
  void goThrough(key, onKept)
}

export function pause(key: number): void {
  ways.get(key)?.controller.abort()
  change(key, { state: { is: 'paused' } })
}

export function goOn(key: number, onKept: (file: string) => void): void {
  const way = ways.get(key)
  if (way === undefined) return
  way.controller = new AbortController()
  change(key, { state: { is: 'sending' } })
  void goThrough(key, onKept)
}

/** Nothing of it is left, here or in the folder; one that is in the folder already stays there. */
export function drop(key: number): void {
  const way = ways.get(key)
  way?.controller.abort()
  way?.begun?.then(({ id }) => answerOf(`/api/uploads/${id}`, { method: 'DELETE' })).catch(() => {})
  ways.delete(key)
  uploads.set((now) => now.filter((each) => each.key !== key))
}

addEventListener('pagehide', () => {
  for (const { id } of ways.values())
    if (id !== null) void fetch(`/api/uploads/${id}`, { method: 'DELETE', keepalive: true })
})

async function goThrough(key: number, onKept: (file: string) => void): Promise<void> {
  const way = ways.get(key)
  if (way === undefined) return
  const { signal } = way.controller
  try {
    const { file } = await sent(key, way, signal)
    ways.delete(key)
    change(key, { state: { is: 'kept', file } })
    await lookAtFolder()
    onKept(file)
  } catch (error) {
    if (signal.aborted) return
    const why = (error as Error).message
    change(key, { state: way.id === null ? { is: 'refused', why } : { is: 'held', why } })
  }
}

async function sent(key: number, way: Way, signal: AbortSignal): Promise<UploadKept> {
  const { file } = way
  way.begun ??= post<UploadBegun>('/api/uploads', { name: file.name, bytes: file.size })
  const { id, pieceBytes } = await way.begun
  way.id = id
  signal.throwIfAborted()
  const address = `/api/uploads/${id}`
  // After a pause, or a connection that broke, the server knows where it is.
  let { received } = await ask<UploadReceived>(address, { signal })
  while (received < file.size) {
    const piece = await pieceOf(file, received, pieceBytes)
    const headers = { 'content-type': 'application/octet-stream' }
    const answer = await ask<UploadReceived>(`${address}?at=${received}`, {
      method: 'PUT',
      body: piece,
      headers,
      signal,
    })
    received = answer.received
    change(key, { received })
  }
  return post<UploadKept>(`${address}/done`, {}, { signal })
}

async function pieceOf(file: File, from: number, bytes: number): Promise<ArrayBuffer> {
  try {
    return await file.slice(from, from + bytes).arrayBuffer()
  } catch {
    throw new Error(`${file.name} cannot be read any more. Was it changed or moved? Drop it here once more.`)
  }
}
