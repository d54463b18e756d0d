/** The folder that the workbench was opened on: its outposts, recordings and the rest, looked at again when it changes. */
import type { Folder } from '../../api/files.ts'
import { folder } from '../server/ask.ts'
import { storeOf, useStore } from '../store.ts'

type Looked =
  | { readonly is: 'looking' }
  | { readonly is: 'refused'; readonly why: string }
  | { readonly is: 'there'; readonly folder: Folder }

const looked = storeOf<Looked>({ is: 'looking' })

export const useFolder = (): Looked => useStore(looked)

export async function lookAtFolder(): Promise<void> {
  try {
    looked.set({ is: 'there', folder: await folder() })
  } catch (error) {
    looked.set((now) => (now.is === 'there' ? now : { is: 'refused', why: (error as Error).message }))
  }
}
