/** Why the last edit could not be made; null where it was. */
import { storeOf, useStore } from '../store.ts'

export const refusedEdit = storeOf<string | null>(null)
export const useRefusedEdit = (): string | null => useStore(refusedEdit)
