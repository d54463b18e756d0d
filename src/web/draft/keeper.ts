/** Keeps drafts in step with the disk: opens them, saves each change at once, and hears of changes by others. */
import type { Conflict } from '../../api/files.ts'
import { folder, Refusal, save, textOf } from '../server/ask.ts'
import { watchFiles } from '../server/changes.ts'
import { storeOf, useStore } from '../store.ts'
import { changedOnDisk, type Draft, edited, isToWrite, redone, saved, settled, undone } from './draft.ts'
import { allOf, arrived, EMPTY, leftFor, letGo, type Opened, toWrite, withDraft } from './drafts.ts'

/** So long nothing is typed before the text is written. */
const PAUSE_MS = 250
const RETRY_MS = 3000

const drafts = storeOf(EMPTY)
export const useOpened = (): Opened => useStore(drafts).desk
export const openedNow = (): Opened => drafts.get().desk
export const watchOpened = drafts.watch

/** Null while no file is open. */
export function useDraft(): Draft | null {
  const now = useOpened()
  return now.is === 'open' ? now.draft : null
}

/** Those that were left before they could be saved. */
export const useHeld = (): readonly Draft[] => useStore(drafts).held

const ofFile = (file: string, how: (draft: Draft) => Draft): void =>
  drafts.set((now) => withDraft(now, file, how))

function change(how: (draft: Draft) => Draft): void {
  const now = openedNow()
  if (now.is === 'open') ofFile(now.draft.file, how)
}

let last: Promise<unknown> = Promise.resolve()
/** Reads and writes of the disk go one after the other: what was read is never older than what was written. */
function inTurn<T>(task: () => Promise<T>): Promise<T> {
  const done = last.then(task)
  last = done.catch(() => {})
  return done
}

/** What is not saved of the file before is held until it is. */
export async function open(file: string): Promise<void> {
  const before = openedNow()
  if (before.is === 'open' && before.draft.file === file) return
  drafts.set((now) => leftFor(now, { is: 'opening', file }))
  await saveNow()
  const read = await inTurn(() => textOf(file)).catch((error: Error) => ({ why: error.message }))
  drafts.set((now) => arrived(now, file, read))
  saveSoon()
}

export function close(): void {
  drafts.set((now) => leftFor(now, { is: 'none' }))
  void saveNow()
}

export const forget = (file: string): void => drafts.set((now) => letGo(now, file))

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

function saveSoon(after_ms = PAUSE_MS): void {
  clearTimeout(timer)
  timer = setTimeout(() => void saveNow(), after_ms)
}

/** Writes what is not written yet, of whatever file. */
export function saveNow(): Promise<void> {
  clearTimeout(timer)
  return inTurn(async () => {
    for (const { file } of toWrite(drafts.get())) await write(file)
  })
}

async function write(file: string): Promise<void> {
  const draft = allOf(drafts.get()).find((each) => each.file === file)
  if (draft === undefined || !isToWrite(draft)) return
  const { text, base } = draft
  // While it is tried again it is still told why it was refused.
  if (draft.saving.is !== 'refused') ofFile(file, (now) => ({ ...now, saving: { is: 'under way' } }))
  try {
    const answer = await save({ file, text, before: base.version })
    if ('version' in answer) ofFile(file, (now) => saved(now, text, answer.version))
    else ofFile(file, (now) => changedOnDisk(now, (answer as Conflict).now))
  } catch (error) {
    ofFile(file, (now) => ({ ...now, saving: { is: 'refused', why: (error as Error).message } }))
    saveSoon(RETRY_MS)
    return
  }
  if (toWrite(drafts.get()).length > 0) saveSoon()
}

/** Asks again what the disk has, and lays it over the draft. */
function lookAgain(file: string): Promise<void> {
  return inTurn(async () => {
    try {
      const text = await textOf(file)
      ofFile(file, (draft) => changedOnDisk(draft, text))
      saveSoon()
    } catch (error) {
      if (error instanceof Refusal && !(await isStillThere(file)))
        ofFile(file, (draft) => changedOnDisk(draft, null))
    }
  })
}

/** Of every draft, and once more of a file that could not be opened. */
function lookAtAll(): void {
  for (const { file } of allOf(drafts.get())) void lookAgain(file)
  const now = openedNow()
  if (now.is === 'refused') void open(now.file)
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
      onFolderChange()
      const draft = allOf(drafts.get()).find((each) => each.file === file)
      if (draft !== undefined && (version !== draft.base.version || draft.conflict !== null))
        void lookAgain(file)
      const now = openedNow()
      if (now.is === 'refused' && now.file === file) void open(file)
    },
    () => {
      onFolderChange()
      lookAtAll()
    },
  )
  const hold = (event: BeforeUnloadEvent) => {
    if (allOf(drafts.get()).every(({ text, base }) => text === base.text)) return
    void saveNow()
    event.preventDefault()
  }
  addEventListener('beforeunload', hold)
  return () => {
    stop()
    removeEventListener('beforeunload', hold)
  }
}
