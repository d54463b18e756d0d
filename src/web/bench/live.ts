/** A recording from a serial port under way. It goes on while other pages are looked at; what came is kept however it ends. */
import type { Live } from '../../api/bench.ts'
import { lookAtFolder } from '../draft/folder.ts'
import { post } from '../server/ask.ts'
import { work } from '../server/work.ts'
import { storeOf, useStore } from '../store.ts'

export type LiveState =
  | { readonly is: 'none' }
  | {
      readonly is: 'running'
      readonly id: string
      readonly out: string
      readonly live: Live | null
      readonly isStopping: boolean
    }
  | { readonly is: 'ended'; readonly live: Live }
  | { readonly is: 'refused'; readonly why: string }

export interface Wanted {
  readonly port: string
  readonly baud: number
  readonly out: string
  readonly rate_Hz: number | null
}

const live = storeOf<LiveState>({ is: 'none' })
export const useLive = (): LiveState => useStore(live)

export async function begin(wanted: Wanted): Promise<void> {
  // Not randomUUID, which pages at a network address do not have.
  const id = crypto.getRandomValues(new Uint32Array(4)).join('-')
  live.set({ is: 'running', id, out: wanted.out, live: null, isStopping: false })
  try {
    const ended = await work<'record'>(
      { work: 'record', ...wanted, id },
      {
        onTold: (told) => {
          if (told.event === 'picture')
            live.set((now) => (now.is === 'running' ? { ...now, live: told.picture } : now))
        },
      },
    )
    live.set({ is: 'ended', live: ended })
    await lookAtFolder()
  } catch (error) {
    live.set({ is: 'refused', why: (error as Error).message })
  }
}

export async function stop(): Promise<void> {
  const now = live.get()
  if (now.is !== 'running') return
  live.set({ ...now, isStopping: true })
  // Where it ended by itself meanwhile, its own answer says so.
  await post(`/api/work/stop?id=${now.id}`, {}).catch(() => {})
}

export const forget = (): void => live.set({ is: 'none' })
