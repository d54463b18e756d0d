/**
 * Who listens is told of every file of the folder that was changed, made or removed, by whomever. The system says where
 * something happened; what it was is found by comparing listings. Systems that say nothing (folders of other machines)
 * are covered by a look every few seconds.
 */
import { type FSWatcher, watch } from 'node:fs'
import type { FileChanged } from '../api/files.ts'
import { type ListedFile, type Listing, listFolder } from './list-folder.ts'
import { versionOfFile } from './version.ts'

/** Editors write in several steps: what they come to is looked at once. */
const SETTLE_MS = 80
const SWEEP_MS = 4000

export interface FolderWatch {
  /** Begins to tell; by the time it resolves, every later change is told. Returns what ends it. */
  listen(onChange: (change: FileChanged) => void): Promise<() => void>
  /** Something was written just now. */
  lookSoon(): void
}

export function folderWatch(folder: string, sweep_ms = SWEEP_MS): FolderWatch {
  const listeners = new Set<(change: FileChanged) => void>()
  const watchers = new Map<string, FSWatcher>()
  let seen: ReadonlyMap<string, ListedFile> | null = null
  let looking: Promise<void> = Promise.resolve()
  let soon: NodeJS.Timeout | null = null
  let sweep: NodeJS.Timeout | null = null

  const look = (): Promise<void> => {
    looking = looking.then(async () => {
      if (listeners.size === 0) return
      const listing = await listFolder(folder)
      follow(listing)
      const before = seen
      seen = new Map(listing.files.map((each) => [each.file, each]))
      if (before !== null) for (const change of await changesOf(before, seen)) tell(change)
    })
    return looking
  }

  const lookSoon = (): void => {
    soon ??= setTimeout(() => {
      soon = null
      void look()
    }, SETTLE_MS).unref()
  }

  /** Watches the folders that are there, and no others. */
  const follow = ({ folders }: Listing): void => {
    for (const path of watchers.keys()) if (!folders.includes(path)) unwatch(path)
    const fresh = folders.filter((path) => !watchers.has(path))
    for (const path of fresh) watchFor(path)
    if (fresh.length > 0) lookSoon() // at what came between listing and watching
  }

  /** Where the system watches too many already, or the folder is gone, the sweep must do. */
  const watchFor = (path: string): void => {
    try {
      const watcher = watch(path, { persistent: false }, lookSoon)
      watcher.on('error', () => unwatch(path))
      watchers.set(path, watcher)
    } catch {}
  }

  const unwatch = (path: string): void => {
    watchers.get(path)?.close()
    watchers.delete(path)
  }

  const tell = (change: FileChanged): void => {
    for (const listener of listeners) listener(change)
  }

  const rest = (): void => {
    for (const path of [...watchers.keys()]) unwatch(path)
    if (sweep !== null) clearInterval(sweep)
    if (soon !== null) clearTimeout(soon)
    sweep = null
    soon = null
    seen = null
  }

  return {
    async listen(onChange) {
      listeners.add(onChange)
      sweep ??= setInterval(lookSoon, sweep_ms).unref()
      await look()
      return () => {
        listeners.delete(onChange)
        if (listeners.size === 0) rest()
      }
    },
    lookSoon,
  }
}

async function changesOf(
  before: ReadonlyMap<string, ListedFile>,
  now: ReadonlyMap<string, ListedFile>,
): Promise<FileChanged[]> {
  const gone = [...before.keys()].filter((file) => !now.has(file)).map((file) => ({ file, version: null }))
  const written = [...now.values()].filter(({ file, stamp }) => before.get(file)?.stamp !== stamp)
  const told = await Promise.all(
    written.map(async ({ file, path, bytes, stamp }) => ({
      file,
      version: await versionOfFile(path, bytes, stamp).catch(() => null), // gone again
    })),
  )
  return [...gone, ...told]
}
