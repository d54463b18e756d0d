/** Keeps the draft in step with the disk: opens it, saves each change at once, and hears of changes by others. */
import type { Conflict } from '../../api/files.ts'
import { folder, Refusal, save, textOf } from '../server/ask.ts'
import { watchFiles } from '../server/changes.ts'
import { storeOf, useStore } from '../store.ts'
import { changedOnDisk, type Draft, edited, opened, redone, saved, settled, undone } from './draft.ts'

export type Opened =
  | { readonly is: 'none' }
  | { readonly is: 'opening'; readonly file: string }
  | { readonly is: 'refused'; readonly file: string; readonly why: string }
  | { readonly is: 'open'; readonly draft: Draft }

/** So long nothing is typed before the text is written. */
const PAUSE_MS = 250
const RETRY_MS = 3000

const desk = storeOf<Opened>({ is: 'none' })
export const useOpened = (): Opened => useStore(desk)
export const openedNow = desk.get
export const watchOpened = desk.watch

/** Null while no file is open. */
export function useDraft(): Draft | null {
  const now = useOpened()
  return now.is === 'open' ? now.draft : null
}

const change = (how: (draft: Draft) => Draft): void =>
  desk.set((now) => (now.is === 'open' ? { is: 'open', draft: how(now.draft) } : now))

export async function open(file: string): Promise<void> {
  await saveNow()
  desk.set({ is: 'opening', file })
  try {
    const text = await textOf(file)
    const now = desk.get()
    if (now.is === 'opening' && now.file === file) desk.set({ is: 'open', draft: opened(text) })
  } catch (error) {
    desk.set({ is: 'refused', file, why: (error as Error).message })
  }
}

export function close(): void {
  void saveNow()
  desk.set({ is: 'none' })
}

/** `what` names the thing that is changed, in words for "Undone: …". */
export function edit(text: string, what: string): void {
  change((draft) => edited(draft, text, what, performance.now()))
  saveSoon()
}

export function undo(): void {
  change(undone)
  saveSoon()
}

export function redo(): void {
  change(redone)
  saveSoon()
}

export function settle(choice: 'ours' | 'theirs'): void {
  change((draft) => settled(draft, choice))
  saveSoon()
}

let timer: ReturnType<typeof setTimeout> | undefined
let underWay: Promise<void> | null = null

function saveSoon(after_ms = PAUSE_MS): void {
  clearTimeout(timer)
  timer = setTimeout(() => void saveNow(), after_ms)
}

/** Writes what is not written yet, one write at a time. */
export async function saveNow(): Promise<void> {
  clearTimeout(timer)
  while (underWay !== null) await underWay
  const now = desk.get()
  if (now.is !== 'open' || now.draft.conflict !== null) return
  const { file, text, base, saving } = now.draft
  if (text === base.text || saving.is === 'saved') return
  underWay = write(file, text, base.version).finally(() => {
    underWay = null
  })
  await underWay
}

async function write(file: string, text: string, before: string): Promise<void> {
  const ofFile = (how: (draft: Draft) => Draft) =>
    change((draft) => (draft.file === file ? how(draft) : draft))
  ofFile((draft) => ({ ...draft, saving: { is: 'under way' } }))
  try {
    const answer = await save({ file, text, before })
    if ('version' in answer) ofFile((draft) => saved(draft, text, answer.version))
    else ofFile((draft) => changedOnDisk(draft, (answer as Conflict).now))
  } catch (error) {
    ofFile((draft) => ({ ...draft, saving: { is: 'refused', why: (error as Error).message } }))
    saveSoon(RETRY_MS)
    return
  }
  const now = desk.get()
  if (now.is === 'open' && now.draft.text !== now.draft.base.text) saveSoon()
}

/** Asks again what the disk has, and lays it over the draft. */
async function lookAgain(): Promise<void> {
  while (underWay !== null) await underWay
  const now = desk.get()
  if (now.is !== 'open') return
  const { file, base } = now.draft
  try {
    const text = await textOf(file)
    if (text.version === base.version) return
    change((draft) => (draft.file === file ? changedOnDisk(draft, text) : draft))
    saveSoon()
  } catch (error) {
    if (error instanceof Refusal && !(await isStillThere(file)))
      change((draft) => (draft.file === file ? changedOnDisk(draft, null) : draft))
  }
}

/** A server that does not answer says nothing about the file. */
async function isStillThere(file: string): Promise<boolean> {
  try {
    return (await folder()).outposts.some((outpost) => outpost.file === file)
  } catch {
    return true
  }
}

/** Begins to listen to the disk; what is not saved holds the window open. */
export function keepInStep(onFolderChange: () => void): () => void {
  const stop = watchFiles(
    ({ file, version }) => {
      const now = desk.get()
      onFolderChange()
      if (now.is === 'open' && now.draft.file === file && version !== now.draft.base.version) void lookAgain()
    },
    () => {
      onFolderChange()
      void lookAgain()
    },
  )
  const hold = (event: BeforeUnloadEvent) => {
    const now = desk.get()
    if (now.is !== 'open' || now.draft.text === now.draft.base.text) return
    void saveNow()
    event.preventDefault()
  }
  addEventListener('beforeunload', hold)
  return () => {
    stop()
    removeEventListener('beforeunload', hold)
  }
}
