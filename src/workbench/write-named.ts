/** Files that a user names to be written: over what stood there, but never over what the command reads. */
import { realpathSync } from 'node:fs'
import { mkdir } from 'node:fs/promises'
import { resolve } from 'node:path'
import { Refusal } from './refusal.ts'
import { writeWhole } from './write-file.ts'

/** Throws a Refusal where `path` is one of `reads`, by whatever name, or cannot be written. */
export async function writeNamed(path: string, text: string, reads: readonly string[]): Promise<void> {
  refuseOver(path, reads)
  try {
    await writeWhole(path, text)
  } catch (error) {
    throw unwritable(path, error)
  }
}

/** Makes a folder that the user named for files, where it is not there yet; a Refusal where it cannot be. */
export async function folderNamed(path: string): Promise<void> {
  try {
    await mkdir(path, { recursive: true })
  } catch (error) {
    throw unwritable(path, error)
  }
}

/** Throws a Refusal where writing to `path` would destroy one of `reads`. */
export function refuseOver(path: string, reads: readonly string[]): void {
  const target = realPath(path)
  if (reads.some((each) => realPath(each) === target))
    throw new Refusal(`${path} is what is read, and would be lost. Name another file to write.`)
}

/** Why the file system takes no file there, as a Refusal; an error that is not the file system's comes back as it is. */
export function unwritable(path: string, error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : null
  if (code === null) return error
  const whys: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such folder',
    ENOTDIR: 'there is no such folder',
    EISDIR: 'it is a folder',
    EEXIST: 'a file of that name is there',
    EACCES: 'it may not be written there',
    EPERM: 'it may not be written there',
    EROFS: 'the disk takes nothing',
    ENOSPC: 'the disk is full',
  }
  return new Refusal(`${path} cannot be written: ${whys[code] ?? code}.`)
}

/** Links followed; of what is not there, the whole path. */
function realPath(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    return resolve(path)
  }
}
