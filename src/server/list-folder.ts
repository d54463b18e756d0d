/**
 * What a folder and the folders in it hold that the workbench can open. Bounded, so that it stays quick in a folder of
 * any size; hidden files and installed packages are left out, and so are links that lead outside.
 */
import type { Dirent, Stats } from 'node:fs'
import { opendir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { insideFolder } from '../workbench/inside-folder.ts'
import { isOfAnyKind, isOfKind } from './file-kinds.ts'

const MOST_ENTRIES_A_FOLDER = 5000
const MOST_FOLDERS = 200
const MOST_FILES = 2000
const PACKAGES = 'node_modules'

export interface ListedFile {
  /** Relative to the folder, with `/`. */
  readonly file: string
  readonly path: string
  readonly bytes: number
  /** Changes whenever the file is written or replaced. */
  readonly stamp: string
}

export interface Listing {
  readonly files: readonly ListedFile[]
  /** Paths of the folders that were looked into, the folder itself first. */
  readonly folders: readonly string[]
}

export async function listFolder(folder: string): Promise<Listing> {
  const top = await entriesOf(folder)
  const inner = top
    .filter((entry) => entry.isDirectory() && entry.name !== PACKAGES)
    .slice(0, MOST_FOLDERS)
    .map(({ name }) => name)
  const below = await Promise.all(
    inner.map(async (name) =>
      (await entriesOf(join(folder, name))).map((entry) => ({ entry, file: `${name}/${entry.name}` })),
    ),
  )
  const named = [...top.map((entry) => ({ entry, file: entry.name })), ...below.flat()].filter(
    ({ entry, file }) => (entry.isFile() || entry.isSymbolicLink()) && isOfAnyKind(file),
  )
  // Outposts come first, lest thousands of recordings crowd them out.
  const [outposts, others] = [true, false].map((is) =>
    named.filter(({ file }) => isOfKind('outpost', file) === is),
  )
  const files = await Promise.all(
    [...outposts, ...others].slice(0, MOST_FILES).map(({ file }) => listed(folder, file)),
  )
  return {
    files: files.filter((each) => each !== null),
    folders: [folder, ...inner.map((name) => join(folder, name))],
  }
}

/** By name; nothing where the folder cannot be read, or is gone meanwhile. */
async function entriesOf(folder: string): Promise<Dirent[]> {
  const entries: Dirent[] = []
  try {
    for await (const entry of await opendir(folder)) {
      if (!entry.name.startsWith('.')) entries.push(entry)
      if (entries.length >= MOST_ENTRIES_A_FOLDER) break
    }
  } catch {
    return []
  }
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1))
}

async function listed(folder: string, file: string): Promise<ListedFile | null> {
  const found = insideFolder(folder, file)
  if (found.is !== 'file') return null
  try {
    const about = await stat(found.path)
    return { file, path: found.path, bytes: about.size, stamp: stampOf(about) }
  } catch {
    return null
  }
}

const stampOf = ({ size, mtimeMs, ctimeMs, ino }: Stats): string => [size, mtimeMs, ctimeMs, ino].join(' ')
